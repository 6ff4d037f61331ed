package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;

/** Delays with loads, on the small example with invented resistances and capacitances. */
class BufferedStagesTest {
    /** East and west wires hang on one another without a buffer; all else is buffered. */
    private static final String ELECTRICAL =
            """
            "electrical": {
              "wires": [{"wire": "run1_e", "ohms": [40, 60], "femtofarads": [30, 45]},
                        {"wire": "run1_w", "ohms": [40, 60], "femtofarads": [30, 45]},
                        {"wire": "run1_n", "ohms": [50, 70], "femtofarads": [35, 50]},
                        {"wire": "run1_s", "ohms": [50, 70], "femtofarads": [35, 50]}],
              "switches": [{"from": "run1_e", "to": "run1_e", "buffered": false,
                            "ohms": [700, 1200], "femtofarads": [2, 3]},
                           {"from": "run1_e", "to": "run1_n", "buffered": false,
                            "ohms": [700, 1200], "femtofarads": [2, 3]},
                           {"from": "run1_e", "to": "run1_s", "buffered": false,
                            "ohms": [700, 1200], "femtofarads": [2, 3]},
                           {"from": "*", "to": "*", "ohms": [300, 500], "femtofarads": [4, 6]}]},
            """;

    @TempDir private Path folder;
    private Design design;

    @BeforeEach
    void read() throws Exception {
        Path small = Path.of("fixtures/small");
        String fabric = Files.readString(small.resolve("around.fabric.json"));
        int banks = fabric.indexOf("\"banks\"");
        Files.writeString(
                folder.resolve("around.fabric.json"),
                fabric.substring(0, banks) + ELECTRICAL + fabric.substring(banks));
        String text = Files.readString(small.resolve("around.design.json"));
        int sinks = text.indexOf("\"sinks\"");
        int first = text.indexOf('}', sinks);
        Files.writeString(
                folder.resolve("design.json"),
                text.substring(0, first) + ", \"required_ps\": 500" + text.substring(first));
        Files.copy(small.resolve("board.json"), folder.resolve("board.json"));
        design = DesignReader.read(folder.resolve("design.json"), Progress.NONE);
    }

    @Test
    void everyDelayEqualsTheFormulasSum() {
        for (Net net : design.nets()) {
            TreeDelays delays = TreeDelays.of(design.fabric(), net.route());
            Oracle oracle = new Oracle(design.fabric(), net.route());
            for (int place = 0; place < net.route().size(); place++) {
                for (Corner corner : Corner.values()) {
                    assertThat((double) delays.at(place).at(corner))
                            .isBetween(
                                    oracle.ps(place, corner) - oracle.roundings(place),
                                    oracle.ps(place, corner) + oracle.roundings(place));
                }
            }
        }
    }

    @Test
    void aBranchSlowsTheOtherSinksAndNoOtherNet() {
        int slowed = 0;
        for (int pad = 0; pad < design.fabric().pads().size(); pad++) {
            slowed += slowedOn(pad);
        }
        assertThat(slowed).isPositive();
    }

    private int slowedOn(int pad) {
        int slowed = 0;
        for (Net net : design.nets()) {
            Question question = new Question(design, net, pad, Corner.SLOW);
            if (!(Asker.ask(question, Progress.NONE) instanceof Answer.FreeRoute open)
                    || open.disconnected().isPresent()
                    || open.route().branchHop() == open.route().hops().size() - 1) {
                continue;
            }
            Design after = Outcome.apply(design, AnswerEdits.of(open));
            List<SinkDelayChange> delayChanges = SinkDelayChange.between(design, after);
            assertThat(delayChanges).hasSize(net.sinks().size());
            assertThat(delayChanges).allMatch(s -> s.net().equals(net.name()) && s.laterPs() >= 0);
            slowed += delayChanges.stream().anyMatch(s -> s.laterPs() > 0) ? 1 : 0;
            // What the answer says is what the changed design has.
            RouteTree tree = after.findNet(net.name()).orElseThrow().route();
            int place = tree.placeOf(design.fabric().pads().get(pad).vertex());
            assertThat(open.route().toPadVertex())
                    .isEqualTo(TreeDelays.of(design.fabric(), tree).at(place));
        }
        return slowed;
    }

    @Test
    void requiredTimesOfSinksGiveSlack() {
        Net net = design.nets().get(0);
        assertThat(net.requiredPs(net.sinks().get(0))).isEqualTo(OptionalInt.of(500));
        Design renumbered = Outcome.apply(design, List.of(new Edit.DisconnectPort("motor")));
        Net same = renumbered.findNet(net.name()).orElseThrow();
        assertThat(same.requiredPs(same.sinks().get(0))).isEqualTo(OptionalInt.of(500));
    }

    /** Elmore's sum over all pairs of a stage, from the tables, with no passes over the tree. */
    private static final class Oracle {
        private final Fabric fabric;
        private final RouteTree tree;
        private final EdgeFinder finder;

        Oracle(Fabric fabric, RouteTree tree) {
            this.fabric = fabric;
            this.tree = tree;
            this.finder = new EdgeFinder(fabric);
        }

        private String kind(int place) {
            return switch (fabric.kind(tree.vertex(place))) {
                case WIRE -> fabric.wireKind(tree.vertex(place));
                case PIN -> "pin";
                case PAD -> "pad";
            };
        }

        private boolean passes(int place) {
            return kind(tree.parent(place)).equals("run1_e")
                    && List.of("run1_e", "run1_n", "run1_s").contains(kind(place));
        }

        private boolean isThrough(int place) {
            return finder.get(tree.vertex(tree.parent(place)), tree.vertex(place)).kind()
                    == EdgeKind.PASS_THROUGH;
        }

        private int stage(int place) {
            int at = place;
            while (at > 0 && passes(at)) {
                at = tree.parent(at);
            }
            return at;
        }

        private double ohms(int place, Corner corner) {
            boolean fast = corner == Corner.FAST;
            return switch (kind(place)) {
                case "run1_e", "run1_w" -> fast ? 40 : 60;
                case "run1_n", "run1_s" -> fast ? 50 : 70;
                default -> 0;
            };
        }

        private double farads(int place, Corner corner) {
            boolean fast = corner == Corner.FAST;
            return switch (kind(place)) {
                case "run1_e", "run1_w" -> fast ? 30 : 45;
                case "run1_n", "run1_s" -> fast ? 35 : 50;
                default -> 0;
            };
        }

        private double drive(int stage, Corner corner) {
            if (stage == 0 || isThrough(stage)) {
                return 0;
            }
            return corner == Corner.FAST ? 300 : 500;
        }

        /** The resistances from a stage's buffer to a wire's near or far end, each by a name. */
        private Map<String, Double> resistances(int place, boolean far, Corner corner) {
            Map<String, Double> result = new HashMap<>();
            int stage = stage(place);
            boolean wholeWire = far;
            int at = place;
            while (true) {
                if (wholeWire) {
                    result.put("wire " + at, ohms(at, corner));
                }
                if (at == stage) {
                    result.put("drive", drive(stage, corner));
                    return result;
                }
                result.put("switch " + at, corner == Corner.FAST ? 700.0 : 1200.0);
                at = tree.parent(at);
                wholeWire = true;
            }
        }

        private record Load(Map<String, Double> from, double farads) {}

        private List<Load> loads(int stage, Corner corner, boolean bare) {
            List<Load> result = new ArrayList<>();
            boolean fast = corner == Corner.FAST;
            for (int place = 0; place < tree.size(); place++) {
                if (stage(place) == stage && !(bare && place != stage)) {
                    double half = farads(place, corner) / 2;
                    double pass = place == stage ? 0 : fast ? 2 : 3;
                    result.add(new Load(resistances(place, false, corner), half + pass));
                    result.add(new Load(resistances(place, true, corner), half));
                }
                boolean hangs =
                        place > 0
                                && !passes(place)
                                && !isThrough(place)
                                && stage(tree.parent(place)) == stage;
                if (hangs && !bare) {
                    result.add(
                            new Load(resistances(tree.parent(place), true, corner), fast ? 4 : 6));
                }
            }
            return result;
        }

        private double elmorePs(int place, int stage, Corner corner, boolean bare) {
            Map<String, Double> own = resistances(place, true, corner);
            double sum = 0;
            for (Load load : loads(stage, corner, bare)) {
                for (Map.Entry<String, Double> one : own.entrySet()) {
                    if (load.from().containsKey(one.getKey())) {
                        sum += one.getValue() * load.farads();
                    }
                }
            }
            return sum / 1000;
        }

        double ps(int place, Corner corner) {
            int stage = stage(place);
            double begun = 0;
            if (stage > 0) {
                int parent = tree.parent(stage);
                begun =
                        ps(parent, corner)
                                + finder.get(tree.vertex(parent), tree.vertex(stage))
                                        .delay()
                                        .at(corner);
            }
            return begun
                    + elmorePs(place, stage, corner, false)
                    - elmorePs(stage, stage, corner, true);
        }

        /** Each stage rounds to whole picoseconds. */
        double roundings(int place) {
            int stage = stage(place);
            return 0.51 + (stage == 0 ? 0 : roundings(tree.parent(stage)));
        }
    }
}
