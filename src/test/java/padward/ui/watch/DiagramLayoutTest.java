package padward.ui.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.ui.watch.CircuitDiagram.Box;
import padward.ui.watch.CircuitDiagram.Line;
import padward.ui.watch.CircuitDiagram.Wire;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Signal;
import padward.watch.condition.ConditionNetNames;
import padward.watch.library.AnyChange;
import padward.watch.library.Count;
import padward.watch.library.Divide;
import padward.watch.library.Event;
import padward.watch.library.Parity;
import padward.watch.library.Recipe;
import padward.watch.library.Registered;
import padward.watch.library.Select;
import padward.watch.library.Signature;
import padward.watch.library.Sticky;
import padward.watch.library.Stretch;
import padward.watch.library.Synchronised;
import padward.watch.library.Toggle;
import padward.watch.library.Trigger;
import padward.watch.own.OwnNetlists;
import padward.watch.request.CircuitSort;

/** Diagrams can be read: boxes stand apart, lines join what belongs together and nothing else. */
class DiagramLayoutTest {
    private static final Optional<String> CLOCK = Optional.of("clk_main");

    private static final ConditionNetNames NAMES =
            new ConditionNetNames() {
                @Override
                public boolean isNet(String name) {
                    return all().anyMatch(name::equals);
                }

                @Override
                public Stream<String> all() {
                    return IntStream.range(0, 20).mapToObj(i -> "pump/phase/acc[" + i + "]");
                }
            };

    private static Circuit circuit(CircuitSort sort, int nets) throws BadInput {
        List<String> all = NAMES.all().limit(nets).toList();
        String clock = CLOCK.orElseThrow();
        Event when =
                Event.of("--when", "rising(acc[0]) || acc[5:1] > 9 && acc[2:0] != acc[9:7]", NAMES);
        Event reset = Event.of("--reset", "acc[2]", NAMES);
        List<Signal> steer =
                IntStream.range(0, 32 - Integer.numberOfLeadingZeros(nets - 1))
                        .<Signal>mapToObj(i -> new Signal.AtPad("x0y" + i + "/pad[0]"))
                        .toList();
        Recipe recipe =
                switch (sort) {
                    case TRIGGER -> new Trigger(when, CLOCK, true);
                    case SELECT -> new Select(all, steer, Optional.empty());
                    case COUNT -> new Count(all, clock, 100);
                    case DIVIDE -> new Divide(clock, 10 * nets, Optional.of(when));
                    case TOGGLE -> new Toggle(when, clock);
                    case STRETCH -> new Stretch(when, clock, 100);
                    case STICKY -> new Sticky(when, clock, Optional.of(reset));
                    case SYNC -> new Synchronised(all.get(0), clock);
                    case REGISTER -> new Registered(all.get(0), clock);
                    case ANY -> new AnyChange(all, clock);
                    case PARITY -> new Parity(all, CLOCK);
                    case SIGNATURE -> new Signature(all, clock, reset, Optional.of(when));
                    case OWN -> OwnNetlists.chain(all, clock);
                };
        List<String> pins = List.of("a", "b", "c", "d");
        CellFunction.LookupTable table =
                new CellFunction.LookupTable(pins, "y", "t", CellFunction.Digits.BINARY, "");
        return recipe.circuit(
                new CircuitKinds(
                        CellKind.lookupTable("look", table),
                        Optional.of(
                                CellKind.register(
                                        "keep", CellFunction.Register.of("d", "c", "q")))));
    }

    @ParameterizedTest
    @EnumSource(CircuitSort.class)
    void everySortOfCircuitIsLegible(CircuitSort sort) throws Exception {
        for (int nets : new int[] {2, 5, 8}) {
            check(circuit(sort, nets), sort + " of " + nets);
        }
    }

    @ParameterizedTest
    @ValueSource(ints = {3, 12, 16})
    void soAreLargeOnes(int nets) throws Exception {
        check(circuit(CircuitSort.SELECT, nets), "select");
        check(circuit(CircuitSort.ANY, nets), "any");
        check(circuit(CircuitSort.COUNT, nets), "count");
    }

    /** One box for each cell, net and pad. */
    @Test
    void aTriggerHasItsParts() throws Exception {
        CircuitDiagram diagram = DiagramLayout.of(circuit(CircuitSort.TRIGGER, 2), List.of("E2"));
        assertThat(diagram.boxes().stream().filter(b -> b.kind() == CircuitDiagram.Kind.SOURCE))
                .hasSize(9);
        assertThat(diagram.boxes()).anySatisfy(b -> assertThat(b.text()).isEqualTo("E2"));
        assertThat(diagram.boxes()).anySatisfy(b -> assertThat(b.below()).isEqualTo("clk_main"));
    }

    private static void check(Circuit circuit, String what) {
        List<String> pads = List.of("E2", "E3").subList(0, circuit.outputs().size());
        CircuitDiagram diagram = DiagramLayout.of(circuit, pads);
        boxesStandApart(diagram, what);
        linesAreTheirOwn(diagram, what);
        linesKeepOffBoxes(diagram, what);
        wiresHoldTogether(diagram, what);
    }

    private static void boxesStandApart(CircuitDiagram diagram, String what) {
        List<Box> boxes = diagram.boxes();
        for (int i = 0; i < boxes.size(); i++) {
            Box one = boxes.get(i);
            assertThat(one.x()).as(what).isGreaterThanOrEqualTo(0);
            assertThat(one.y()).as(what).isGreaterThanOrEqualTo(0);
            assertThat(one.right()).as(what).isLessThanOrEqualTo(diagram.width());
            assertThat(one.y() + one.h()).as(what).isLessThanOrEqualTo(diagram.height());
            for (Box other : boxes.subList(0, i)) {
                boolean apart =
                        one.right() <= other.x()
                                || other.right() <= one.x()
                                || one.y() + one.h() <= other.y()
                                || other.y() + other.h() <= one.y();
                assertThat(apart).as(what + ": " + one + " and " + other).isTrue();
            }
        }
    }

    /** Lines of different values cross, but none lies along another. */
    private static void linesAreTheirOwn(CircuitDiagram diagram, String what) {
        List<Wire> wires = diagram.wires();
        for (int i = 0; i < wires.size(); i++) {
            for (Line one : wires.get(i).lines()) {
                assertThat(one.x0() == one.x1() || one.y0() == one.y1()).as(what + one).isTrue();
                for (Wire other : wires.subList(0, i)) {
                    for (Line line : other.lines()) {
                        assertThat(isAlong(one, line))
                                .as(what + ": " + one + " along " + line)
                                .isFalse();
                    }
                }
            }
        }
    }

    private static boolean isAlong(Line one, Line other) {
        if (one.y0() == one.y1() && other.y0() == other.y1()) {
            return one.y0() == other.y0()
                    && overlap(one.x0(), one.x1(), other.x0(), other.x1()) > 0;
        }
        return one.x0() == one.x1()
                && other.x0() == other.x1()
                && one.x0() == other.x0()
                && overlap(one.y0(), one.y1(), other.y0(), other.y1()) > 0;
    }

    private static double overlap(double a0, double a1, double b0, double b1) {
        return Math.min(Math.max(a0, a1), Math.max(b0, b1))
                - Math.max(Math.min(a0, a1), Math.min(b0, b1));
    }

    private static void linesKeepOffBoxes(CircuitDiagram diagram, String what) {
        for (Wire wire : diagram.wires()) {
            for (Line line : wire.lines()) {
                for (Box box : diagram.boxes()) {
                    boolean through =
                            overlap(line.x0(), line.x1(), box.x() + 1, box.right() - 1) >= 0
                                    && overlap(
                                                    line.y0(),
                                                    line.y1(),
                                                    box.y() + 1,
                                                    box.y() + box.h() - 1)
                                            >= 0;
                    assertThat(through).as(what + ": " + line + " through " + box).isFalse();
                }
            }
        }
    }

    /** All lines of a value meet, and it comes from exactly one box. */
    private static void wiresHoldTogether(CircuitDiagram diagram, String what) {
        for (Wire wire : diagram.wires()) {
            Set<Line> met = new HashSet<>(Set.of(wire.lines().get(0)));
            boolean grown = true;
            while (grown) {
                grown = false;
                for (Line line : wire.lines()) {
                    grown |= met.stream().anyMatch(m -> meet(m, line)) && met.add(line);
                }
            }
            assertThat(met).as(what).containsAll(wire.lines());
            long from =
                    diagram.boxes().stream()
                            .filter(b -> b.kind() != CircuitDiagram.Kind.PAD)
                            .filter(b -> wire.lines().stream().anyMatch(l -> begins(l, b)))
                            .count();
            assertThat(from).as(what).isEqualTo(1);
        }
    }

    private static boolean begins(Line line, Box box) {
        return line.x0() == box.right() && line.y0() == box.middle();
    }

    private static boolean meet(Line one, Line other) {
        return overlap(one.x0(), one.x1(), other.x0(), other.x1()) >= 0
                && overlap(one.y0(), one.y1(), other.y0(), other.y1()) >= 0;
    }
}
