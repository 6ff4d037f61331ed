package padward.breakout.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.NoRouteReason;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.PortDirection;
import padward.design.board.Attachment;
import padward.design.board.AttachmentKind;
import padward.design.board.Board;
import padward.design.board.PadWiring;
import padward.example.HandMade;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadUse;
import padward.route.search.SearchEngineKind;

/** How the pads of one net stand to each other, on a chip with one pad of each sort. */
class RanksTest {
    private static final List<String> PADS =
            List.of(
                    "lead", "free", "led", "wired", "used", "load", "drives", "reads", "test",
                    "in");

    /** From net n a wire of its own leads to each pad, to the better pads the slower ones. */
    private static HandMade made() {
        HandMade made =
                new HandMade()
                        .site("S", "", "o")
                        .site("T", "", "o")
                        .site("U", "i", "")
                        .site("V", "i", "")
                        .cell("s", "S")
                        .cell("t", "T")
                        .cell("u", "U")
                        .cell("v", "V");
        for (String pad : PADS) {
            made.wires("to_" + pad);
            if (pad.equals("test")) {
                made.usedPad(pad, PadUse.Bonding.UNKNOWN, PadUse.Role.TEST);
            } else {
                made.pad(pad, pad.equals("in") ? PadDirections.IN : PadDirections.BOTH, "", "", "");
            }
        }
        IntStream.range(0, PADS.size())
                .forEach(
                        i ->
                                made.chain(
                                        "S.o to_" + PADS.get(i) + " " + PADS.get(i),
                                        100 - 10 * i,
                                        200 - 10 * i));
        return made.chain("T.o to_used")
                .chain("to_used U.i")
                .chain("reads V.i")
                .port("led", PortDirection.OUT, "led")
                .port("wired", PortDirection.OUT, "wired")
                .port("rd", PortDirection.IN, "reads")
                .net("n", "s.o", "", "S.o")
                .net("m", "t.o", "u.i", "T.o to_used U.i")
                .net("r", "rd", "v.i", "reads V.i");
    }

    private static PadWiring wiring(int pad, AttachmentKind... kinds) {
        List<Attachment> parts = new ArrayList<>();
        for (AttachmentKind kind : kinds) {
            parts.add(new Attachment(kind, "X" + pad, ""));
        }
        return new PadWiring(pad, "net" + pad, 0, parts);
    }

    private static Design design() {
        return made().board(
                        new Board(
                                "bench",
                                "invented",
                                List.of(
                                        wiring(0, AttachmentKind.TESTPOINT),
                                        wiring(3),
                                        wiring(5, AttachmentKind.LOAD),
                                        wiring(6, AttachmentKind.DRIVER))))
                .design();
    }

    private static Survey survey(Design design, List<Integer> pads) {
        Net net = design.findNet("n").orElseThrow();
        return Survey.of(design, net, pads, Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
    }

    private static Survey all() {
        return survey(design(), IntStream.range(0, PADS.size()).boxed().toList());
    }

    private static List<String> names(Survey survey) {
        return survey.answers().stream().map(a -> a.question().padValue().name()).toList();
    }

    private static Answer on(String pad) {
        return all().answers().stream()
                .filter(a -> a.question().padValue().name().equals(pad))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void padsComeByTheirPrice() {
        assertThat(all().answers())
                .extracting(
                        a ->
                                a.question().padValue().name()
                                        + ": "
                                        + PadRank.of(a).grade().label()
                                        + ", "
                                        + PadRank.of(a).reason())
                .containsExactly(
                        "lead: free-with-lead, free, place for a lead",
                        "free: free, free",
                        "wired: takes-port, port wired loses it, nothing listens",
                        "led: takes-port, port led loses it, what listens is not known",
                        "used: loses-function, obstacles may lose function",
                        "load: follows, X5 follows",
                        "drives: drives, X6 drives",
                        "reads: drives, the board may drive it, port rd",
                        "test: not-offered, for testing",
                        "in: no-route, no route");
    }

    /** Pads with a route come first, whatever the key; ties go by price. */
    @Test
    void padsCanBeSortedByOtherKeys() {
        assertThat(names(all().sortedBy(Survey.Key.DELAY)))
                .containsExactly(
                        "test", "reads", "drives", "load", "used", "wired", "led", "free", "lead",
                        "in");
        // A port is 1, a net and its one endpoint 2, and on pad reads both are lost.
        assertThat(names(all().sortedBy(Survey.Key.FUNCTION)))
                .containsExactly(
                        "lead", "free", "load", "drives", "test", "wired", "led", "used", "reads",
                        "in");
        assertThat(names(all().sortedBy(Survey.Key.OBSTACLES)))
                .containsExactly(
                        "lead", "free", "wired", "led", "load", "drives", "test", "used", "reads",
                        "in");
        assertThat(names(all().sortedBy(Survey.Key.DELAY).sortedBy(Survey.Key.PRICE)))
                .isEqualTo(names(all()));
    }

    @Test
    void whatTheDesignLosesIsCounted() {
        assertThat(Survey.functionCost(on("free"))).isZero();
        assertThat(Survey.functionCost(on("led"))).isEqualTo(1);
        assertThat(Survey.functionCost(on("used"))).isEqualTo(2);
        assertThat(Survey.functionCost(on("reads"))).isEqualTo(3);
        assertThat(Survey.functionCost(on("in"))).isZero();
    }

    @Test
    void padsThatSomethingMayDriveAreHazardous() {
        assertThat(PADS.stream().filter(p -> Survey.hazardous(on(p))))
                .containsExactly("drives", "reads");
    }

    @Test
    void answersCanBeSelected() {
        Survey free = all().only(a -> a instanceof Answer.Open);
        assertThat(names(free)).containsExactly("lead", "free", "load", "drives", "test");
    }

    @Test
    void padsForOtherPurposesAreNotOffered() {
        Design design = design();
        assertThat(OfferedPads.of(design.fabric())).containsExactly(0, 1, 2, 3, 4, 5, 6, 7, 9);
        assertThat(OfferedPads.leftOut(design.fabric())).isEqualTo("1 for testing");
        HandMade more =
                made().usedPad("x", PadUse.Bonding.UNBONDED, PadUse.Role.GENERAL)
                        .usedPad("y", PadUse.Bonding.UNBONDED, PadUse.Role.TEST);
        assertThat(OfferedPads.leftOut(more.fabric())).isEqualTo("1 for testing, 2 not bonded out");
        Net net = design.findNet("n").orElseThrow();
        Survey offered = Survey.of(design, net, Corner.SLOW, SearchEngineKind.OWN, Progress.NONE);
        assertThat(names(offered)).hasSize(9).doesNotContain("test");
    }

    @Test
    void howANetStandsWithAllPads() {
        NetObservability all = NetObservability.of(all());
        assertThat(all).isEqualTo(new NetObservability(5, 2, 2, 1, Optional.empty()));
        assertThat(all.toText()).isEqualTo("5 pads open");
        Design design = design();
        NetObservability offered =
                NetObservability.of(
                        design, design.findNet("n").orElseThrow(), Corner.SLOW, Progress.NONE);
        assertThat(offered).isEqualTo(new NetObservability(4, 2, 2, 1, Optional.empty()));
        assertThat(standing("free").toText()).isEqualTo("1 pad open");
        assertThat(standing("led", "used").toText()).isEqualTo("takes a port's pad");
        assertThat(standing("used", "in").toText()).isEqualTo("blocked by 1 obstacle");
        assertThat(standing("in").toText()).isEqualTo("no route: all pads are inputs");
        assertThat(new NetObservability(0, 0, 2, 3, Optional.empty()).toText())
                .isEqualTo("blocked by 3 obstacles");
    }

    private static NetObservability standing(String... pads) {
        Design design = design();
        List<Integer> numbers = new ArrayList<>();
        for (String pad : pads) {
            numbers.add(PadNames.findExact(design.fabric(), pad).orElseThrow());
        }
        return NetObservability.of(survey(design, numbers));
    }

    private static NetObservability without(NoRouteReason... reasons) {
        Design design = design();
        Net net = design.findNet("n").orElseThrow();
        List<Answer> answers = new ArrayList<>();
        for (NoRouteReason reason : reasons) {
            answers.add(
                    new Answer.NoRoute(
                            new Question(design, net, answers.size(), Corner.SLOW),
                            reason,
                            "",
                            List.of(),
                            Optional.empty(),
                            List.of()));
        }
        return NetObservability.of(new Survey(net, Corner.SLOW, answers));
    }

    /** What holds for most pads is told, and what lies with the pads only where nothing else is. */
    @ParameterizedTest
    @CsvSource({
        "CLOCK_WIRES_ONLY CLOCK_WIRES_ONLY LOCKED, clock wires only",
        "LOCKED CLOCK_WIRES_ONLY LOCKED, needs what is locked",
        "INPUT_ONLY_PAD INPUT_ONLY_PAD LOCKED, needs what is locked",
        "NO_FITTING_SETTING NO_FITTING_SETTING DEDICATED_WIRES, dedicated wires only",
        "INPUT_ONLY_PAD NO_FITTING_SETTING INPUT_ONLY_PAD, all pads are inputs",
        "NO_FITTING_SETTING, no driver fits its bank's voltage"
    })
    void theUsualReasonIsTold(String reasons, String text) {
        NoRouteReason[] all =
                Arrays.stream(reasons.split(" "))
                        .map(NoRouteReason::valueOf)
                        .toArray(NoRouteReason[]::new);
        assertThat(without(all).toText()).isEqualTo("no route: " + text);
    }

    @Test
    void aDeviceWithoutPadsHasNoRoute() {
        assertThat(without().toText()).isEqualTo("no route: no wire leads to a pad");
    }

    @Test
    void eachReasonHasWordsOfItsOwn() {
        assertThat(Arrays.stream(NoRouteReason.values()).map(r -> without(r).toText()).distinct())
                .hasSize(NoRouteReason.values().length);
    }

    /** Pads are asked for by their index, so that the order of the fabric decides ties. */
    @Test
    void equalPadsComeInTheOrderOfTheFabric() {
        HandMade made = new HandMade().site("S", "", "o").cell("s", "S");
        for (String pad : List.of("b", "a", "c")) {
            made.pad(pad).chain("S.o " + pad);
        }
        Design design = made.net("n", "s.o", "", "S.o").design();
        assertThat(names(survey(design, List.of(2, 1, 0)))).containsExactly("b", "a", "c");
        assertThat(design.fabric().pads()).extracting(Pad::name).containsExactly("b", "a", "c");
    }

    @Test
    void eachPadIsReportedBeforeItIsAskedFor() {
        List<String> reports = new ArrayList<>();
        Progress progress =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {
                        if (message.startsWith("pad ")) {
                            reports.add(message + " " + fraction);
                        }
                    }

                    @Override
                    public boolean cancelled() {
                        return false;
                    }
                };
        Design design = design();
        Net net = design.findNet("n").orElseThrow();
        Survey.of(design, net, List.of(3, 1), Corner.SLOW, SearchEngineKind.OWN, progress);
        assertThat(reports).containsExactly("pad 1 of 2 0.0", "pad 2 of 2 0.5");
    }
}
