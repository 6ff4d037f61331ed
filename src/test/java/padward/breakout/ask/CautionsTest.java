package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import padward.breakout.ask.Caution.Kind;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Corner;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.fabric.pad.PadDriving;
import padward.fabric.pad.PadEnable;
import padward.fabric.pad.PadUse;

/** What is said before a pad is driven (common practice, no source). Invented fabric. */
class CautionsTest {
    @ParameterizedTest
    @EnumSource(PadDirections.class)
    void onlyADriverThatIsThereHasAnEnable(PadDirections directions) {
        FabricInfo info = new FabricInfo("gate", "invented", List.of(), List.of(), List.of());
        ExplicitBuilder builder = new ExplicitBuilder(info, 1, 1);
        builder.addSite(
                "s", 0, "logic", List.of("register"), List.of(new SitePin("q", PinDirection.OUT)));
        int enable =
                builder.addSite(
                        "enable",
                        0,
                        "io-register",
                        List.of("register"),
                        List.of(new SitePin("d", PinDirection.IN)));
        builder.addPad("p", 0, "", "", directions, Fabric.NOTHING, enable, "");
        Fabric fabric = builder.build();
        Net net =
                new Net(
                        0,
                        "n",
                        new Terminal.CellPin(0, "q"),
                        List.of(),
                        RouteTree.of(fabric.findVertex("s.q")),
                        false);
        Design design =
                new Design(
                        "gate",
                        "invented",
                        fabric,
                        Board.UNKNOWN,
                        List.of(new Cell(0, "c", "register", 0, Map.of())),
                        List.of(net),
                        List.of());

        List<Caution> cautions = Cautions.of(new Question(design, net, 0, Corner.SLOW));

        assertThat(cautions.stream().anyMatch(c -> c.text().contains("has an output enable")))
                .isEqualTo(directions.canDrive());
        assertThat(cautions).last().extracting(Caution::kind).isEqualTo(Caution.Kind.GENERAL);
    }

    /** Net n, and m beside it, can be brought out on pad p, whose driver is switched through e. */
    private static HandMade gated(PadEnable traits) {
        return new HandMade()
                .wires("w v x")
                .site("s", "", "q")
                .site("t", "", "q")
                .site("e", "d", "q")
                .through("e", "d", "q")
                .enabledPad("p", "e", traits)
                .chain("s.q w p")
                .chain("t.q v p")
                .chain("t.q x e.d")
                .cell("c", "s")
                .cell("turn", "t")
                .net("n", "c.q", "", "s.q");
    }

    private static Question ask(Design design, String net) {
        return new Question(design, design.findNet(net).orElseThrow(), 0, Corner.SLOW);
    }

    private static String text(List<Caution> cautions, Kind kind) {
        return cautions.stream()
                .filter(c -> c.kind() == kind)
                .map(Caution::text)
                .collect(Collectors.joining("; "));
    }

    private static String enable(Design design, String net) {
        return text(Cautions.of(ask(design, net)), Kind.ENABLE);
    }

    @ParameterizedTest
    @CsvSource({
        "HIGH, it must be tied on (a high level)",
        "LOW, it must be tied on (a low level)",
        "UNKNOWN, 'it must be tied on (which level that is, the device''s data sheet says)'"
    })
    void anEnableMustBeTiedOnAtItsLevel(PadEnable.Active level, String expected) {
        PadEnable traits = new PadEnable(level, PadEnable.Unconnected.UNKNOWN);
        assertThat(enable(gated(traits).design(), "n"))
                .contains("has an output enable, through e: " + expected);
    }

    @Test
    void aDriverThatIsOnByItselfNeedsNothingTied() {
        PadEnable on = new PadEnable(PadEnable.Active.HIGH, PadEnable.Unconnected.ON);
        assertThat(enable(gated(on).design(), "n")).isEmpty();
    }

    @Test
    void whatSwitchesAPadsDriverIsNamed() {
        Design byCell = gated(PadEnable.UNKNOWN).cell("oe", "e").design();
        assertThat(enable(byCell, "n"))
                .contains("used by cell oe: while it disables the output, the pin is high-imp")
                .endsWith(
                        "Once it is removed, the enable must be tied on, and the pad then drives"
                                + " all the time.");
        Design byNet = gated(PadEnable.UNKNOWN).net("on", "turn.q", "", "t.q x e.d e.q").design();
        assertThat(enable(byNet, "n")).contains("used by net on: while");
        // Of a net that is on the pad, nothing has to be removed.
        Design there =
                gated(PadEnable.UNKNOWN)
                        .cell("oe", "e")
                        .port("led", PortDirection.OUT, "p")
                        .net("m", "turn.q", "led", "t.q v p")
                        .design();
        assertThat(enable(there, "m"))
                .contains("used by cell oe")
                .endsWith("the pin is high-impedance.");
    }

    private static List<Edit> bringOut(Design design, boolean tie) {
        List<Integer> path =
                List.of("s.q", "w", "p").stream().map(design.fabric()::findVertex).toList();
        Edit out = new Edit.BreakOut("n", "out", "p", "", path);
        return tie ? List.of(out, new Edit.TieEnable("out")) : List.of(out);
    }

    @Test
    void anEnableThatAChangeTiesOnIsSaidToDriveAllTheTime() {
        Design design = gated(PadEnable.UNKNOWN).net("m", "turn.q", "", "t.q").design();
        Question asked = ask(design, "n");
        String tied = "is tied on: the pad drives all the time";
        assertThat(text(Cautions.of(asked, bringOut(design, true)), Kind.ENABLE)).contains(tied);
        assertThat(text(Cautions.of(asked, bringOut(design, false)), Kind.ENABLE))
                .contains("it must be tied on");
        List<Edit> other = List.of(bringOut(design, false).get(0), new Edit.TieEnable("else"));
        assertThat(text(Cautions.of(asked, other), Kind.ENABLE)).contains("it must be tied on");
        assertThat(Cautions.ofEdits(design, bringOut(design, true)))
                .anyMatch(s -> s.caution().text().contains(tied));
        Design after = Outcome.apply(design, bringOut(design, true));
        assertThat(enable(after, "n")).isEmpty();
        // Tied on for another net: that goes with its port.
        assertThat(enable(after, "m")).contains("it must be tied on");
        assertThat(enable(Outcome.apply(design, bringOut(design, false)), "n"))
                .contains("it must be tied on");
    }

    @Test
    void theEnablesOfAGroupShareALine() {
        HandMade made = new HandMade();
        for (String i : List.of("1", "2")) {
            made.site("s" + i, "", "q")
                    .site("e" + i, "d", "")
                    .enabledPad("p" + i, "e" + i)
                    .cell("c" + i, "s" + i)
                    .net("n" + i, "c" + i + ".q", "", "s" + i + ".q");
        }
        Design design = made.design();
        List<Question> both =
                List.of(
                        new Question(design, design.nets().get(0), 0, Corner.SLOW),
                        new Question(design, design.nets().get(1), 1, Corner.SLOW));
        assertThat(Cautions.shared(both))
                .filteredOn(s -> s.caution().kind() == Kind.ENABLE)
                .singleElement()
                .satisfies(
                        s -> {
                            assertThat(s.pads()).containsExactly("p1", "p2");
                            assertThat(s.toText())
                                    .startsWith("p1, p2: ")
                                    .contains("through its enable's IO register site: it must");
                            assertThat(s.toText(1)).startsWith("p1 and 1 more: ");
                        });
        assertThat(Cautions.shared(both.subList(0, 1)))
                .filteredOn(s -> s.caution().kind() == Kind.ENABLE)
                .singleElement()
                .satisfies(s -> assertThat(s.caution().text()).contains("through e1: it must"));
    }

    @ParameterizedTest
    @EnumSource(
            value = Kind.class,
            names = {"HANDLING", "LOADING", "GENERAL", "DRIVES"})
    void whatHoldsForAllPadsNamesNone(Kind kind) {
        String text = new Cautions.Shared(List.of("p1", "p2"), new Caution(kind, "Heed!")).toText();
        assertThat(text).isEqualTo(kind == Kind.DRIVES ? "p1, p2: Heed!" : "Heed!");
    }

    @Test
    void whereNoRouteLeadsToThePadNothingIsSaidForDrivingIt() {
        List<Caution> all = Cautions.of(ask(gated(PadEnable.UNKNOWN).design(), "n"));
        assertThat(Cautions.withoutRoute(all)).isEqualTo(all.subList(0, all.size() - 1));
    }

    @Test
    void theGravestComeFirst() {
        // A pad named like a test pin, on a board of which nothing is known.
        Design design =
                new HandMade()
                        .pad("tms")
                        .pad("q")
                        .site("s", "", "a b")
                        .cell("c", "s")
                        .net("n", "c.a", "", "s.a")
                        .net("m", "c.b", "", "s.b")
                        .design();
        Question reserved = ask(design, "n");
        assertThat(Cautions.of(reserved))
                .extracting(Caution::kind)
                .containsExactly(Kind.CONFIGURATION, Kind.UNKNOWN, Kind.GENERAL);
        Question plain = new Question(design, design.nets().get(1), 1, Corner.SLOW);
        assertThat(Cautions.shared(List.of(plain, reserved)))
                .extracting(s -> s.caution().kind())
                .containsExactly(Kind.CONFIGURATION, Kind.UNKNOWN, Kind.GENERAL);
        List<Edit> out =
                List.of(
                        new Edit.BreakOut("n", "o", "tms", "", List.of()),
                        new Edit.BreakOut("m", "r", "q", "", List.of()));
        assertThat(Cautions.ofLoading(design, out))
                .extracting(s -> s.caution().kind())
                .containsExactly(
                        Kind.CONFIGURATION,
                        Kind.UNKNOWN,
                        Kind.GLITCHES,
                        Kind.LOADING,
                        Kind.GENERAL);
        assertThat(Cautions.ofEdits(design, out))
                .extracting(s -> s.caution().kind())
                .containsExactly(Kind.CONFIGURATION, Kind.UNKNOWN, Kind.GLITCHES, Kind.GENERAL);
        // A single line is no group.
        assertThat(Cautions.ofEdits(design, out.subList(0, 1)))
                .extracting(s -> s.caution().kind())
                .containsExactly(Kind.CONFIGURATION, Kind.UNKNOWN, Kind.GENERAL);
    }

    @ParameterizedTest
    @CsvSource({
        "UNBONDED, GENERAL, connects this pad to no pin",
        "BONDED, CONFIGURATION, for loading the configuration",
        "BONDED, TEST, for testing the device",
        "BONDED, REFERENCE, reference voltage",
        "BONDED, RESERVED, reserves this pad",
        "BONDED, GENERAL, ''",
        "UNKNOWN, CLOCK, ''"
    })
    void aPadThatIsForSomethingElse(PadUse.Bonding bonding, PadUse.Role role, String expected) {
        Design design =
                new HandMade()
                        .usedPad("p", bonding, role)
                        .site("s", "", "q")
                        .cell("c", "s")
                        .net("n", "c.q", "", "s.q")
                        .design();
        String said = text(Cautions.of(ask(design, "n")), Kind.PAD);
        if (expected.isEmpty()) {
            assertThat(said).isEmpty();
        } else {
            assertThat(said).contains(expected);
        }
    }

    /** Pads p and r are a differential pair; port clk, or one in its place, is on r. */
    private static HandMade paired(PadDriving ofP, PadDriving ofR) {
        return new HandMade()
                .drivenPad("p", "", "", ofP)
                .drivenPad("r", "", "", ofR)
                .wires("w")
                .site("s", "", "q")
                .chain("s.q w p")
                .cell("c", "s")
                .port("clk", PortDirection.OUT, "r")
                .net("n", "c.q", "", "s.q");
    }

    @Test
    void thePortOnTheOtherPadOfAPairFails() {
        PadDriving withR = new PadDriving(false, List.of(), "r");
        PadDriving withP = new PadDriving(false, List.of(), "p");
        PadDriving alone = PadDriving.UNSTATED;
        for (HandMade made : List.of(paired(withR, alone), paired(alone, withP))) {
            assertThat(text(Cautions.of(ask(made.design(), "n")), Kind.PAD))
                    .contains(
                            "a differential pair with pad r, where port clk is: if that is a"
                                    + " differential signal, it fails");
        }
        Design none = paired(alone, alone).design();
        assertThat(text(Cautions.of(ask(none, "n")), Kind.PAD)).isEmpty();
        Design there =
                paired(withR, alone)
                        .port("led", PortDirection.OUT, "p")
                        .cell("d", "s2")
                        .site("s2", "", "q")
                        .chain("s2.q p")
                        .net("m", "d.q", "led", "s2.q p")
                        .design();
        assertThat(text(Cautions.of(ask(there, "m")), Kind.PAD)).isEmpty();
    }

    @Test
    void aPathThatInvertsIsTold() {
        Design design =
                paired(new PadDriving(true, List.of(), ""), PadDriving.UNSTATED)
                        .port("led", PortDirection.OUT, "p")
                        .site("s2", "", "q")
                        .cell("d", "s2")
                        .chain("s2.q p")
                        .net("m", "d.q", "led", "s2.q p")
                        .design();
        assertThat(text(Cautions.of(ask(design, "n")), Kind.PAD))
                .isEqualTo("The path to this pad inverts: the pin is low while n is high.");
        assertThat(text(Cautions.of(ask(design, "m")), Kind.PAD)).isEmpty();
    }

    @Test
    void aSettingForAnotherVoltageThanTheBanksIsTold() {
        Design design =
                new HandMade()
                        .bank("a", 3300)
                        .setting("lv18", 1800)
                        .pad("p", PadDirections.BOTH, "a", "", "lv18")
                        .site("s", "", "q")
                        .cell("c", "s")
                        .net("n", "c.q", "", "s.q")
                        .design();
        assertThat(text(Cautions.of(ask(design, "n")), Kind.VOLTAGE))
                .contains("Driver setting lv18 is for 1.8 V, but bank a is supplied with 3.3 V");
    }

    /** Four new outputs in bank a are many, one in bank b is not. */
    @Test
    void manyNewOutputsAreToldOfThePadsOfTheirBank() {
        HandMade made = new HandMade().bank("a", 3300).bank("b", 3300).setting("lv33", 3300);
        List<Edit> edits = new ArrayList<>();
        for (int i = 0; i < 5; i++) {
            made.site("s" + i, "", "q")
                    .chain("s" + i + ".q p" + i)
                    .cell("c" + i, "s" + i)
                    .pad("p" + i, PadDirections.BOTH, i < 4 ? "a" : "b", "", "lv33")
                    .net("n" + i, "c" + i + ".q", "", "s" + i + ".q");
        }
        Design design = made.design();
        for (int i = 0; i < 5; i++) {
            List<Integer> path =
                    List.of(
                            design.fabric().findVertex("s" + i + ".q"),
                            design.fabric().findVertex("p" + i));
            edits.add(new Edit.BreakOut("n" + i, "o" + i, "p" + i, "lv33", path));
        }
        assertThat(Cautions.ofEdits(design, edits))
                .filteredOn(s -> s.caution().kind() == Kind.SWITCHING)
                .singleElement()
                .satisfies(s -> assertThat(s.pads()).containsExactly("p0", "p1", "p2", "p3"));
    }
}
