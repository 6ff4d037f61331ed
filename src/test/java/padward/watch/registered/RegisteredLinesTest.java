package padward.watch.registered;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.breakout.group.GroupNames;
import padward.breakout.group.RegisterQuestion;
import padward.change.Edit;
import padward.change.Outcome;
import padward.change.PlainState;
import padward.design.Design;
import padward.design.NameLookup;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.format.design.DesignReader;
import padward.timing.ExternalLineDelay;
import padward.timing.TreeDelays;
import padward.watch.simulate.DesignSimulation;

/**
 * Groups of which not every line can be registered in its pad alone. That the lines show what they
 * should is simulated, cycle by cycle, on the design with the edits; that the edits change what
 * they say and nothing else is compared with {@link PlainState}.
 */
class RegisteredLinesTest {
    /** The pads' registers as the fixture would state them with pins and times. */
    private static final String STATED =
            """
            {"name": "io-register", "holdsState": true, "register": {"data": "d", "clock": "clk",
             "output": "q", "initial": "low", "clockToOutput_ps": [70, 120], "setup_ps": [45, 85],
             "hold_ps": [5, 15]}}""";

    private static final String NOT_STATED = "{\"name\": \"io-register\", \"holdsState\": true}";
    private static final String NO_REGISTER = "{\"name\": \"io-register\", \"holdsState\": false}";
    private static final List<String> INNER =
            List.of("pump/level/sample[0]", "pump/level/sample[1]");
    private static final List<String> OUTER = List.of("float_hi", "float_lo");
    private static final int CYCLES = 200;

    @TempDir private Path folder;

    private Design read(String ioRegister) throws Exception {
        Path small = Path.of("fixtures/small");
        String text = Files.readString(small.resolve("only.fabric.json"));
        assertThat(text).contains(NOT_STATED);
        // Without settings of drivers, of which the plain oracle knows nothing.
        JsonObject fabric =
                JsonParser.parseString(
                                text.replace(NOT_STATED, ioRegister)
                                        .replace(", \"setting\": \"lv33-8\"", ""))
                        .getAsJsonObject();
        fabric.remove("settings");
        Files.writeString(folder.resolve("only.fabric.json"), fabric.toString());
        Files.copy(small.resolve("only.design.json"), folder.resolve("only.design.json"));
        Files.copy(small.resolve("board.json"), folder.resolve("board.json"));
        return DesignReader.read(folder.resolve("only.design.json"), Progress.NONE);
    }

    private static RegisteredLines registered(Design design, List<String> nets, double clockMhz)
            throws Exception {
        List<Net> found = nets.stream().map(n -> design.findNet(n).orElseThrow()).toList();
        List<Integer> pads =
                GroupNames.pads(
                        design,
                        List.of("header J1"),
                        (d, n) -> NameLookup.requirePad(d, n, "pads"),
                        "pads");
        Bus bus = Bus.of(design, found, pads, Bus.Aim.MOST, Bus.Ports.KEEP, Progress.NONE);
        assertThat(bus.lines()).hasSameSizeAs(nets);
        return RegisteredLines.of(
                new RegisterQuestion(
                        design,
                        bus,
                        design.findNet("clk12").orElseThrow(),
                        clockMhz,
                        ExternalLineDelay.USUAL,
                        5),
                pads,
                Bus.Ports.KEEP,
                Progress.NONE);
    }

    /** Applies the edits, compares with the plain oracle, and simulates all lines. */
    private static Design check(Design design, RegisteredLines lines, Map<String, Integer> late)
            throws Exception {
        Bus placed = lines.placed().orElseThrow();
        Outcome outcome = Outcome.of(design, placed.edits());
        assertThat(outcome).isInstanceOf(Outcome.Applied.class);
        Design after = ((Outcome.Applied) outcome).design();
        assertThat(PlainState.of(after).text())
                .isEqualTo(PlainState.of(design).after(placed.edits(), design.fabric()).text());
        DesignSimulation run = new DesignSimulation(after);
        Random random = new Random(27);
        Map<String, List<Boolean>> past = new HashMap<>();
        List<String> cells =
                placed.edits().stream()
                        .filter(Edit.AddCell.class::isInstance)
                        .map(e -> ((Edit.AddCell) e).cell())
                        .toList();
        for (int t = 0; t < CYCLES; t++) {
            Map<String, Boolean> levels = new HashMap<>();
            for (String net : late.keySet()) {
                boolean level = random.nextBoolean();
                levels.put(net, level);
                past.computeIfAbsent(net, n -> new ArrayList<>()).add(level);
            }
            run.begin(net -> Optional.ofNullable(levels.get(net)));
            for (RegisteredLine line : lines(lines)) {
                int cycles = late.get(line.net());
                if (t >= cycles) {
                    assertThat(run.pad(line.pad()))
                            .as(line.net() + " in cycle " + t)
                            .isEqualTo(past.get(line.net()).get(t - cycles));
                }
            }
            run.edge("clk12", Set.copyOf(cells));
        }
        return after;
    }

    private record RegisteredLine(String net, int pad) {}

    private static List<RegisteredLine> lines(RegisteredLines lines) {
        return lines.inPads().lines().stream()
                .map(l -> new RegisteredLine(l.net().name(), l.pad()))
                .toList();
    }

    @Test
    void aNetOfNoClockPassesTwoRegistersTheSecondAtItsPad() throws Exception {
        Design design = read(STATED);
        RegisteredLines lines = registered(design, OUTER, 12);
        assertThat(lines.isPossible()).isTrue();
        assertThat(lines.inFabric()).hasSize(2).allMatch(f -> f.lastAtPad() && f.twoStages());
        check(design, lines, Map.of("float_hi", 2, "float_lo", 2));
        List<String> sentences = lines.inFabric().get(0).sentences("clk12", 1e6 / 12);
        assertThat(sentences.get(0))
                .isEqualTo(
                        "float_hi passes two registers of clk12, watch/sync1/first on "
                                + lines.inFabric().get(0).cells().get(0).site()
                                + " and watch/sync1/out on x7y2/outreg[1] before its pad, and"
                                + " comes out two periods later.");
        assertThat(String.join(" ", sentences))
                .contains("Setup is met by clock periods from", "hold by")
                .contains("are left for the first register's output to become 0 or 1")
                .doesNotContain("What comes from");
    }

    @Test
    void withoutARegisterAtThePadBothAreInTheFabric() throws Exception {
        Design design = read(NO_REGISTER);
        RegisteredLines lines = registered(design, OUTER, 0);
        assertThat(lines.inFabric()).hasSize(2).noneMatch(FabricRegister::lastAtPad);
        check(design, lines, Map.of("float_hi", 2, "float_lo", 2));
    }

    @Test
    void aNetOfTheClockIsRegisteredInTheFabricWhereItsPadHasNoRegister() throws Exception {
        Design design = read(NO_REGISTER);
        RegisteredLines lines = registered(design, INNER, 12);
        assertThat(lines.inFabric()).hasSize(2).noneMatch(FabricRegister::twoStages);
        Design after = check(design, lines, Map.of(INNER.get(0), 1, INNER.get(1), 1));
        FabricRegister first = lines.inFabric().get(0);
        // By hand: the clock's way to the register, its 60 to 110 ps, and the line from there.
        String cell = first.cells().get(0).cell();
        Net clock = after.findNet("clk12").orElseThrow();
        int pin = after.fabric().site(after.findCell(cell).orElseThrow().site()).findPin("clk");
        Delay edge = TreeDelays.of(after.fabric(), clock.route()).at(clock.route().placeOf(pin));
        Bus.Line line = lines.placed().orElseThrow().lines().get(0);
        for (Corner corner : Corner.values()) {
            int fromRegister = line.atInstrument(after, ExternalLineDelay.USUAL).at(corner);
            assertThat(first.atInstrument().orElseThrow().at(corner))
                    .isEqualTo(edge.at(corner) + (corner == Corner.FAST ? 60 : 110) + fromRegister);
        }
    }

    @Test
    void oneGroupCanHaveBothSorts() throws Exception {
        Design design = read(STATED);
        List<String> nets = Stream.of(INNER, OUTER).flatMap(List::stream).limit(3).toList();
        RegisteredLines lines = registered(design, nets, 12);
        assertThat(lines.inFabric()).hasSize(1);
        check(design, lines, Map.of(INNER.get(0), 1, INNER.get(1), 1, "float_hi", 2));
        assertThat(
                        lines.placed().orElseThrow().lines().stream()
                                .map(l -> l.net().name())
                                .collect(Collectors.toList()))
                .containsExactly(
                        "registered/" + INNER.get(0),
                        "registered/" + INNER.get(1),
                        "watch/sync1/out");
        assertThat(lines.skew()).isPresent();
    }

    @Test
    void whatCannotBeMetIsRefusedWithItsReason() throws Exception {
        Design design = read(NO_REGISTER);
        RegisteredLines lines = registered(design, OUTER, 5_000);
        assertThat(lines.isPossible()).isFalse();
        assertThat(lines.placed()).isEmpty();
        assertThat(lines.inFabric().get(0).reason().orElseThrow())
                .contains(
                        "has no register; two registers in the fabric: setup is not met: it takes a period of ");
    }
}
