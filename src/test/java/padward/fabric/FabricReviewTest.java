package padward.fabric;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadDriving;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;
import padward.fabric.review.FabricOddity;
import padward.fabric.review.FabricReview;

/** A small fabric in which everything that is odd is so on purpose. */
class FabricReviewTest {
    private static final Delay SOME = new Delay(10, 10);

    private static ExplicitBuilder builder() {
        CellKind cell =
                CellKind.lookupTable(
                        "cell",
                        new CellFunction.LookupTable(
                                List.of("d"), "q", "rows", CellFunction.Digits.BINARY, ""));
        FabricInfo info = new FabricInfo("odd", "Invented.", List.of(cell), List.of(), List.of());
        return new ExplicitBuilder(info, 60, 2);
    }

    @Test
    void oddThingsAreNamed() {
        ExplicitBuilder builder = builder();
        for (int x = 0; x < 59; x++) {
            // all wires go one tile to the right, but one goes up
            builder.addWire("w" + x, x, x == 30 ? x + 60 : x + 1, "e");
        }
        int site =
                builder.addSite(
                        "s", 0, "logic", List.of(), List.of(new SitePin("q", PinDirection.OUT)));
        int lone =
                builder.addSite(
                        "t",
                        0,
                        "logic",
                        List.of("cell"),
                        List.of(new SitePin("d", PinDirection.IN)));
        assertThat(List.of(site, lone)).containsExactly(0, 1);
        int fed = pad(builder, "fed", PadDirections.OUT);
        pad(builder, "unfed", PadDirections.OUT);
        pad(builder, "apart", PadDirections.OUT);
        pad(builder, "blind", PadDirections.IN);
        for (int x = 0; x < 58; x++) {
            builder.addEdge(x, x + 1, EdgeKind.SWITCH, x == 5 ? Delay.ZERO : SOME);
        }
        int pin = builder.findVertex("s.q");
        builder.addEdge(pin, 10, EdgeKind.SWITCH, SOME);
        builder.addEdge(58, fed, EdgeKind.CONNECTION, SOME);
        builder.addEdge(3, builder.findVertex("apart"), EdgeKind.CONNECTION, SOME);
        FabricReview.Result review = FabricReview.of(builder.build(), Progress.NONE);
        assertThat(review.counts())
                .containsExactly(
                        "59 wires: 59 e",
                        "2 sites with 2 pins: 2 logic",
                        "59 switches, 2 fixed connections, 0 pass-throughs");
        assertThat(review.findings())
                .containsExactly(
                        "pads that can drive, but nothing leads to them: 1 (unfed)",
                        "pads that no signal of a cell reaches, even on the empty fabric: 1"
                                + " (apart)",
                        "input pads that lead nowhere: 1 (blind)",
                        "pads without a package pin: 4 (fed, unfed, apart, …; all: check --all"
                                + " unnamed-pins)",
                        "wires that nothing drives: 1 (w0)",
                        "wires that span other tiles than nearly all of their kind: 1 (w30)",
                        "sites that accept no kind of cell: 1 (s)",
                        "sites whose pins are joined to nothing: 1 (t)",
                        "sites without a pin that a lookup table or register which they accept"
                                + " has: 1 (t)",
                        "no kind of cell holds state, so no endpoint can be named",
                        "no driver settings, so the delay of pads is not known",
                        "fast and slow delays are the same everywhere",
                        "connections that take no time: 1 of 61");
    }

    @Test
    void alikePinsThatAreNot() {
        ExplicitBuilder builder = builder();
        builder.addSite(
                "s",
                0,
                "logic",
                List.of("cell"),
                List.of(
                        new SitePin("d", PinDirection.IN, "one"),
                        new SitePin("e", PinDirection.IN, "one"),
                        new SitePin("f", PinDirection.IN, "two"),
                        new SitePin("q", PinDirection.OUT)));
        assertThat(FabricReview.of(builder.build(), Progress.NONE).findings())
                .contains(
                        "pins that are alike with no other pin of their site or part: 1 (s.f)",
                        "alike pins that a cell which their site accepts uses differently: 2"
                                + " (s.d, s.e)");
    }

    @Test
    void whatGoesAgainstAPinIsNamed() {
        ExplicitBuilder builder = builder();
        int wire = builder.addWire("w", 0, 1, "e");
        SitePin in = new SitePin("d", PinDirection.IN);
        SitePin out = new SitePin("q", PinDirection.OUT);
        int site = builder.addSite("s", 0, "logic", List.of("cell"), List.of(in, out));
        int data = builder.findVertex("s.d");
        int output = builder.findVertex("s.q");
        builder.addPad("a", 0, "1", "", PadDirections.OUT, site, Fabric.NOTHING, "");
        builder.addPad("b", 0, "2", "", PadDirections.OUT, site, Fabric.NOTHING, "");
        builder.addEdge(data, output, EdgeKind.PASS_THROUGH, SOME);
        builder.addEdge(wire, output, EdgeKind.SWITCH, SOME);
        builder.addEdge(data, wire, EdgeKind.SWITCH, SOME);
        assertThat(FabricReview.of(builder.build(), Progress.NONE).findings())
                .contains(
                        "out pins that something leads to: 1 (s.q)",
                        "in pins that lead to something: 1 (s.d)",
                        "pads with the same IO register site before their drivers: 1 (a and b)");
    }

    private static int pad(ExplicitBuilder builder, String name, PadDirections directions) {
        return builder.addPad(name, 0, "", "", directions, Fabric.NOTHING, Fabric.NOTHING, "");
    }

    /** A pad that only a wire for clocks leads to, and one behind an unusable wire. */
    @Test
    void padsThatNoWireForSignalsLeadsTo() {
        ExplicitBuilder builder = builder();
        int general = builder.addWire("g", 0, 1, "e");
        int clock = builder.addWire("c", 0, 1, "clock");
        int closed = builder.addWire("u", 0, 1, "e");
        builder.setWireUnusable(closed);
        builder.addSite(
                "s", 0, "logic", List.of("cell"), List.of(new SitePin("q", PinDirection.OUT)));
        int pin = builder.findVertex("s.q");
        int clockPad = usedPad(builder, "k", PadUse.Role.CLOCK);
        int served = usedPad(builder, "served", PadUse.Role.GENERAL);
        int byClock = usedPad(builder, "by_clock", PadUse.Role.GENERAL);
        int behind = usedPad(builder, "behind", PadUse.Role.GENERAL);
        int test = usedPad(builder, "test", PadUse.Role.TEST);
        builder.addEdge(clockPad, clock, EdgeKind.SWITCH, SOME);
        builder.addEdge(served, general, EdgeKind.SWITCH, SOME);
        for (int wire : new int[] {general, clock, closed}) {
            builder.addEdge(pin, wire, EdgeKind.SWITCH, SOME);
        }
        builder.addEdge(general, served, EdgeKind.SWITCH, SOME);
        builder.addEdge(clock, served, EdgeKind.SWITCH, SOME);
        builder.addEdge(clock, byClock, EdgeKind.SWITCH, SOME);
        builder.addEdge(clock, test, EdgeKind.SWITCH, SOME);
        builder.addEdge(closed, behind, EdgeKind.SWITCH, SOME);
        assertThat(all(builder, FabricOddity.PADS_BY_CLOCK_ONLY))
                .containsExactly("by_clock", "behind");
    }

    private static int usedPad(ExplicitBuilder builder, String name, PadUse.Role role) {
        return builder.addPad(
                name,
                0,
                name,
                "",
                PadDirections.BOTH,
                Fabric.NOTHING,
                Fabric.NOTHING,
                "",
                new PadUse(PadUse.Bonding.BONDED, role, Delay.ZERO, PadDriving.UNSTATED),
                PadEnable.UNKNOWN);
    }

    private static List<String> all(ExplicitBuilder builder, FabricOddity kind) {
        return FabricReview.of(builder.build(), Progress.NONE).odd().stream()
                .filter(f -> f.kind() == kind)
                .flatMap(f -> f.names().stream())
                .toList();
    }

    @Test
    void pinsOfASiteThatMeetTheSameWire() {
        ExplicitBuilder builder = builder();
        int one = builder.addWire("one", 0, 1, "e");
        int two = builder.addWire("two", 0, 1, "e");
        for (String site : List.of("s", "t")) {
            builder.addSite(
                    site,
                    0,
                    "logic",
                    List.of("cell"),
                    List.of(
                            new SitePin("a", PinDirection.IN),
                            new SitePin("b", PinDirection.IN),
                            new SitePin("c", PinDirection.IN),
                            new SitePin("q", PinDirection.OUT),
                            new SitePin("r", PinDirection.OUT)));
        }
        for (String pin : List.of("s.a", "s.b", "s.c", "t.a")) {
            builder.addEdge(one, builder.findVertex(pin), EdgeKind.SWITCH, SOME);
        }
        builder.addEdge(two, builder.findVertex("s.c"), EdgeKind.SWITCH, SOME);
        builder.addEdge(two, builder.findVertex("t.b"), EdgeKind.SWITCH, SOME);
        builder.addEdge(builder.findVertex("s.q"), two, EdgeKind.SWITCH, SOME);
        builder.addEdge(builder.findVertex("s.r"), two, EdgeKind.SWITCH, SOME);
        assertThat(all(builder, FabricOddity.PINS_SHARING_A_WIRE))
                .containsExactly("s: a and b at one", "s: q and r at two");
    }

    /** A fabric in which nothing is odd but what a test adds. */
    private static ExplicitBuilder plain(CellKind... more) {
        List<CellKind> kinds = new ArrayList<>(List.of(new CellKind("cell", true)));
        kinds.addAll(List.of(more));
        DriverSetting setting = new DriverSetting("s", "s", 3300, 8, "slow", SOME);
        return new ExplicitBuilder(
                new FabricInfo("plain", "Invented.", kinds, List.of(setting), List.of()), 60, 2);
    }

    private static List<String> findings(ExplicitBuilder builder) {
        return FabricReview.of(builder.build(), Progress.NONE).findings();
    }

    private static int site(ExplicitBuilder builder, String name, SitePin... pins) {
        return builder.addSite(name, 0, "logic", List.of("cell"), List.of(pins));
    }

    private static SitePin in(String name) {
        return new SitePin(name, PinDirection.IN);
    }

    private static SitePin out(String name) {
        return new SitePin(name, PinDirection.OUT);
    }

    private static void edge(ExplicitBuilder builder, String from, String to, EdgeKind kind) {
        builder.addEdge(builder.findVertex(from), builder.findVertex(to), kind, new Delay(10, 20));
    }

    @Test
    void inAFabricThatIsAsItShouldBeNothingIsOdd() {
        ExplicitBuilder builder = plain();
        site(builder, "s", in("d"), out("q"));
        builder.addWire("w", 0, 1, "e");
        edge(builder, "s.q", "w", EdgeKind.SWITCH);
        edge(builder, "w", "s.d", EdgeKind.SWITCH);
        edge(builder, "s.d", "s.q", EdgeKind.PASS_THROUGH);
        assertThat(findings(builder)).isEmpty();
        assertThat(FabricReview.of(plain().build(), Progress.NONE).counts())
                .containsExactly(
                        "0 wires",
                        "0 sites with 0 pins",
                        "0 switches, 0 fixed connections, 0 pass-throughs");
        assertThat(findings(plain())).isEmpty();
    }

    @Test
    void aWireThatLeadsNowhereIsNamed() {
        ExplicitBuilder builder = plain();
        site(builder, "s", out("q"));
        builder.addWire("w", 0, 1, "e");
        edge(builder, "s.q", "w", EdgeKind.SWITCH);
        assertThat(findings(builder)).containsExactly("wires that lead nowhere: 1 (w)");
    }

    @Test
    void aSiteWhosePinsAreJoinedToNothingIsNamed() {
        ExplicitBuilder builder = plain();
        site(builder, "s", out("q"));
        site(builder, "t", in("d"));
        site(builder, "bare");
        assertThat(findings(builder))
                .containsExactly("sites whose pins are joined to nothing: 2 (s, t)");
    }

    @Test
    void aSiteMustHaveThePinsOfARegisterOfBothEdges() {
        DoubleRateRegister register =
                new DoubleRateRegister(
                        "r", "f", "c", "q", Optional.empty(), Optional.empty(), Optional.empty());
        CellKind both =
                new CellKind(
                        "both", true, Optional.empty(), Optional.empty(), Optional.of(register));
        ExplicitBuilder builder = plain(both);
        builder.addWire("w", 0, 1, "e");
        for (String name : List.of("fits", "lacks")) {
            List<SitePin> pins = new ArrayList<>(List.of(in("r"), in("f"), out("q")));
            if (name.equals("fits")) {
                pins.add(in("c"));
            }
            builder.addSite(name, 0, "logic", List.of("both"), pins);
            edge(builder, name + ".q", "w", EdgeKind.SWITCH);
            edge(builder, "w", name + ".r", EdgeKind.SWITCH);
        }
        assertThat(findings(builder))
                .containsExactly(
                        "sites without a pin that a lookup table or register which they accept"
                                + " has: 1 (lacks)");
    }

    @Test
    void aSwitchGroupOfOneSwitchIsNamedAndGroupsAreCounted() {
        ExplicitBuilder builder = plain();
        site(builder, "s", in("d"), out("q"));
        for (String wire : List.of("v", "w")) {
            builder.addWire(wire, 0, 1, "e");
            edge(builder, "s.q", wire, EdgeKind.SWITCH);
            edge(builder, wire, "s.d", EdgeKind.SWITCH);
            builder.addToSwitchGroup("pair", builder.findVertex("s.q"), builder.findVertex(wire));
        }
        builder.addToSwitchGroup("one", builder.findVertex("w"), builder.findVertex("s.d"));
        FabricReview.Result result = FabricReview.of(builder.build(), Progress.NONE);
        assertThat(result.findings())
                .containsExactly("switch groups of one switch, which exclude nothing: 1 (one)");
        assertThat(result.counts().get(2)).endsWith("0 pass-throughs, 2 switch groups");
    }

    @Test
    void partsAndWhatIsUnusableAreCounted() {
        ExplicitBuilder builder = plain();
        for (String part : List.of("a", "b")) {
            builder.addPart(
                    "s",
                    part,
                    List.of(0),
                    "logic",
                    List.of("cell"),
                    List.of(in("d" + part), out("q" + part)));
        }
        int lone = site(builder, "lone", out("q"));
        int wire = builder.addWire("w", 0, 1, "e");
        builder.setWireUnusable(wire);
        builder.setSiteUnusable(lone);
        assertThat(FabricReview.of(builder.build(), Progress.NONE).counts())
                .containsExactly(
                        "1 wire: 1 e",
                        "2 sites with 5 pins: 2 logic, 2 parts of sites",
                        "0 switches, 0 fixed connections, 0 pass-throughs",
                        "unusable: 1 wire, 1 site");
    }

    @ParameterizedTest
    @ValueSource(ints = {40, 41})
    void upToFortyKindsAreListed(int kinds) {
        ExplicitBuilder builder = plain();
        for (int i = 0; i < kinds; i++) {
            builder.addWire("w" + i, 0, 1, "k" + i);
        }
        String wires = FabricReview.of(builder.build(), Progress.NONE).counts().get(0);
        if (kinds <= 40) {
            assertThat(wires).startsWith("40 wires: 1 k0, 1 k1, ");
        } else {
            assertThat(wires).isEqualTo("41 wires of 41 kinds");
        }
    }

    @Test
    void aWireWithoutAKindIsCounted() {
        ExplicitBuilder builder = plain();
        builder.addWire("w", 0, 1, "");
        assertThat(FabricReview.of(builder.build(), Progress.NONE).counts().get(0))
                .isEqualTo("1 wire: 1 ?");
    }

    /** Tile 60 is above tile 0. */
    @Test
    void aSpanIsOddByItsColumnsOrItsRows() {
        ExplicitBuilder builder = plain();
        for (int i = 0; i < 150; i++) {
            builder.addWire("w" + i, i % 50, i % 50 + 1, "e");
        }
        // To the right like the others, in the other row.
        builder.addWire("above", 61, 62, "e");
        builder.addWire("far", 5, 7, "e");
        builder.addWire("up", 5, 66, "e");
        assertThat(all(builder, FabricOddity.ODD_SPANS)).containsExactly("far", "up");
    }

    @ParameterizedTest
    @CsvSource({"49, false", "50, true"})
    void aSpanThatFewerThanOneInFiftyWiresHaveIsOdd(int others, boolean odd) {
        ExplicitBuilder builder = plain();
        for (int i = 0; i < others; i++) {
            builder.addWire("w" + i, i, i + 1, "e");
        }
        builder.addWire("far", 5, 7, "e");
        assertThat(all(builder, FabricOddity.ODD_SPANS)).hasSize(odd ? 1 : 0);
    }

    /** Asks to stop at one of the questions whether to, and notes what is reported. */
    private static final class StopAt implements Progress {
        private final int question;
        private final List<Double> fractions = new ArrayList<>();
        private int asked;

        StopAt(int question) {
            this.question = question;
        }

        @Override
        public void report(double fraction, String message) {
            fractions.add(fraction);
        }

        @Override
        public boolean cancelled() {
            return ++asked == question;
        }
    }

    /**
     * 5,000 wires, with a pad for clocks: edges, clock wires and what can be reached (twice) are
     * each looked at in steps of 4,096, and sites (twice for what can be reached) in one or two.
     */
    @Test
    void aReviewTellsItsProgressAndCanBeStoppedInEachOfItsPasses() {
        ExplicitBuilder builder = plain();
        site(builder, "s", in("d"), out("q"));
        int before = builder.findVertex("s.q");
        for (int i = 0; i < 5000; i++) {
            int wire = builder.addWire("w" + i, 0, 1, "e");
            builder.addEdge(before, wire, EdgeKind.SWITCH, SOME);
            before = wire;
        }
        int clock = builder.addWire("c", 0, 1, "clock");
        builder.addEdge(usedPad(builder, "k", PadUse.Role.CLOCK), clock, EdgeKind.SWITCH, SOME);
        Fabric fabric = builder.build();
        int edges = 2;
        int sites = 1;
        int clocks = 2;
        int reached = 2 * (sites + 2);
        int questions = edges + reached + clocks + sites;
        for (int question = 1; question <= questions; question++) {
            Progress progress = new StopAt(question);
            assertThatThrownBy(() -> FabricReview.of(fabric, progress))
                    .isInstanceOf(CancellationException.class);
        }
        StopAt never = new StopAt(questions + 1);
        FabricReview.of(fabric, never);
        assertThat(never.fractions).containsExactly(0.0, 4096.0 / fabric.vertexCount());
    }
}
