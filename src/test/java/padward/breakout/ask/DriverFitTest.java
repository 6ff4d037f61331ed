package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.group.Bus;
import padward.breakout.survey.Survey;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.example.HandMade;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.Bank;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDirections;

/** Settings and the voltages of banks (common practice, no source). Invented fabric. */
class DriverFitTest {
    private static Answer ask(int bankMillivolts, String portSetting) {
        Delay delay = new Delay(1000, 2000);
        FabricInfo info =
                new FabricInfo(
                        "volts",
                        "invented",
                        List.of(),
                        List.of(
                                new DriverSetting("lv33", "3.3 V", 3300, 8, "slow", delay),
                                new DriverSetting("lv18", "1.8 V", 1800, 8, "slow", delay)),
                        List.of(new Bank("a", bankMillivolts)));
        ExplicitBuilder builder = new ExplicitBuilder(info, 1, 1);
        builder.addWire("w", 0, 0, "general");
        builder.addSite(
                "s", 0, "logic", List.of("register"), List.of(new SitePin("q", PinDirection.OUT)));
        for (String pad : List.of("p", "other")) {
            builder.addPad(
                    pad, 0, "", "a", PadDirections.OUT, Fabric.NOTHING, Fabric.NOTHING, "lv33");
        }
        builder.addEdge(builder.findVertex("s.q"), builder.findVertex("w"), EdgeKind.SWITCH, delay);
        builder.addEdge(
                builder.findVertex("w"), builder.findVertex("p"), EdgeKind.CONNECTION, delay);
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
                        "volts",
                        "invented",
                        fabric,
                        Board.UNKNOWN,
                        List.of(new Cell(0, "c", "register", 0, Map.of())),
                        List.of(net),
                        List.of(new Port(0, "o", PortDirection.OUT, 1, portSetting)));
        return Asker.ask(new Question(design, net, 0, Corner.SLOW), Progress.NONE);
    }

    @Test
    void aSettingThatFitsStays() {
        Answer.Open open = (Answer.Open) ask(3300, "lv33");
        assertThat(open.route().setting().orElseThrow().name()).isEqualTo("lv33");
        assertThat(Survey.hazardous(open)).isFalse();
    }

    @Test
    void oneThatDoesNotIsReplacedAndTold() {
        Answer.Open open = (Answer.Open) ask(1800, "lv18");
        assertThat(open.route().setting().orElseThrow().name()).isEqualTo("lv18");
        assertThat(open.cautions())
                .anyMatch(c -> c.text().contains("set the driver to lv18 instead"));
    }

    @Test
    void whereNoneFitsThereIsNoRoute() {
        Answer.NoRoute none = (Answer.NoRoute) ask(2500, "");
        assertThat(none.reason()).isEqualTo(NoRouteReason.NO_FITTING_SETTING);
        assertThat(none.cautions()).anyMatch(c -> c.text().contains("do not use this pad"));
    }

    @Test
    void anotherPortAtAnotherVoltageIsAHazard() {
        Answer.Open open = (Answer.Open) ask(3300, "lv18");
        assertThat(open.cautions()).anyMatch(c -> c.text().contains("set for another voltage: o"));
        assertThat(Survey.hazardous(open)).isTrue();
    }

    /** A net, a pad in a bank of 2.5 V, and a list of settings in which a pair comes first. */
    private static HandMade choice() {
        return new HandMade()
                .bank("a", 2500)
                .setting("pair", "differential 2.5 V", 2500, 2, "slow", 900)
                .setting("strong", "LVCMOS 2.5 V", 2500, 16, "fast", 300)
                .setting("weak-fast", "LVCMOS 2.5 V", 2500, 4, "fast", 150)
                .setting("weak", "LVCMOS 2.5 V", 2500, 4, "slow", 60)
                .setting("other", "LVCMOS 3.3 V", 3300, 2, "slow", 60)
                .wires("w")
                .site("s", "", "q")
                .chain("s.q w p")
                .chain("w r")
                .cell("c", "s")
                .pad("p", PadDirections.BOTH, "a", "", "strong")
                .pad("r", PadDirections.BOTH, "a", "", "strong")
                .net("n", "c.q", "", "s.q");
    }

    private static String chosen(Design design, WantedDriver wish) {
        Question question = new Question(design, design.nets().get(0), 0, Corner.SLOW, wish);
        return DriverFit.of(question).setting().map(DriverSetting::name).orElse("");
    }

    @Test
    void theGentlestOfOnePadIsTaken() {
        Design design = choice().design();
        assertThat(chosen(design, WantedDriver.NONE)).isEqualTo("weak");
        assertThat(chosen(design, new WantedDriver("", 100))).isEqualTo("weak-fast");
        assertThat(chosen(design, new WantedDriver("", 200))).isEqualTo("strong");
        assertThat(chosen(design, new WantedDriver("", 500))).isEqualTo("strong");
        assertThat(chosen(design, WantedDriver.of("pair"))).isEqualTo("pair");
    }

    @Test
    void aWantedSettingForAnotherVoltageIsNotUsed() {
        Design design = choice().design();
        Answer answer =
                Asker.ask(
                        new Question(
                                design,
                                design.nets().get(0),
                                0,
                                Corner.SLOW,
                                WantedDriver.of("other")),
                        Progress.NONE);
        assertThat(((Answer.NoRoute) answer).reason()).isEqualTo(NoRouteReason.NO_FITTING_SETTING);
    }

    @Test
    void theStrongDriverOfThePortThatLosesItsPadDoesNotStay() {
        Design design = choice().port("motor", PortDirection.OUT, "p", "strong").design();
        Question question = new Question(design, design.nets().get(0), 0, Corner.SLOW);
        Answer.TakesPort taken = (Answer.TakesPort) Asker.ask(question, Progress.NONE);
        List<Edit> edits = AnswerEdits.of(taken);
        assertThat(edits)
                .extracting(Edit::toText)
                .contains("disconnect port motor", "set driver of port out_p to weak");
        Design after = Outcome.apply(design, edits);
        assertThat(after.findPort("out_p").orElseThrow().setting()).isEqualTo("weak");
        // And a group does the same.
        Bus bus =
                Bus.of(
                        design,
                        List.copyOf(design.nets()),
                        List.of(0),
                        Bus.Aim.SUM,
                        Bus.Ports.MAY_DISCONNECT,
                        Progress.NONE);
        assertThat(bus.edits()).containsExactlyInAnyOrderElementsOf(edits);
    }

    @Test
    void theDriverOfAPadOnWhichTheNetIsCanBeSet() {
        Design design =
                choice().port("o", PortDirection.OUT, "r", "strong")
                        .net("m", "o2.q", "o", "s2.q w2 r")
                        .site("s2", "", "q")
                        .wires("w2")
                        .chain("s2.q w2 r")
                        .cell("o2", "s2")
                        .design();
        Net there = design.findNet("m").orElseThrow();
        Question as = new Question(design, there, 1, Corner.SLOW);
        Answer.Open same = (Answer.Open) Asker.ask(as, Progress.NONE);
        assertThat(same.route().setting().orElseThrow().name()).isEqualTo("strong");
        assertThat(AnswerEdits.of(same)).isEmpty();
        Answer.Open weak =
                (Answer.Open)
                        Asker.ask(
                                new Question(
                                        design, there, 1, Corner.SLOW, WantedDriver.of("weak")),
                                Progress.NONE);
        assertThat(AnswerEdits.of(weak)).containsExactly(new Edit.SetDriver("o", "weak"));
    }

    @Test
    void inputsDoNotDependOnTheOutputsVoltage() {
        Design read = choice().port("in", PortDirection.IN, "r", "other").design();
        Design driven = choice().port("out", PortDirection.OUT, "r", "other").design();
        assertThat(DriverFit.of(new Question(read, read.nets().get(0), 0, Corner.SLOW)).conflict())
                .isEmpty();
        assertThat(
                        DriverFit.of(new Question(driven, driven.nets().get(0), 0, Corner.SLOW))
                                .conflict())
                .hasValueSatisfying(c -> assertThat(c).contains("another voltage: out"));
    }
}
