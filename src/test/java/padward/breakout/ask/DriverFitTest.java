package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.breakout.survey.Survey;
import padward.design.Board;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Bank;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.DriverSetting;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PadDirections;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.explicit.ExplicitBuilder;

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
}
