package padward.breakout.ask;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Corner;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;

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
}
