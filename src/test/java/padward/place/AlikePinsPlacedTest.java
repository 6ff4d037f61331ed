package padward.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Netlist;
import padward.design.Terminal;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.watch.simulate.DesignSimulation;

/** A netlist whose lookup table has an input that no wire leads to. */
class AlikePinsPlacedTest {
    private static Fabric fabric(String alike) {
        CellFunction.LookupTable table =
                new CellFunction.LookupTable(
                        List.of("a", "b"), "y", "rows", CellFunction.Digits.BINARY, "");
        FabricInfo info =
                new FabricInfo(
                        "two",
                        "Invented.",
                        List.of(CellKind.lookupTable("lut", table), new CellKind("source", true)),
                        List.of(),
                        List.of());
        ExplicitBuilder builder = new ExplicitBuilder(info, 1, 1);
        builder.addWire("w", 0, 0, "w");
        builder.addSite(
                "S", 0, "s", List.of("source"), List.of(new SitePin("q", PinDirection.OUT)));
        builder.addSite(
                "T",
                0,
                "t",
                List.of("lut"),
                List.of(
                        new SitePin("a", PinDirection.IN, alike),
                        new SitePin("b", PinDirection.IN, alike),
                        new SitePin("y", PinDirection.OUT)));
        builder.addEdge(
                builder.findVertex("S.q"),
                builder.findVertex("w"),
                EdgeKind.SWITCH,
                new Delay(1, 2));
        builder.addEdge(
                builder.findVertex("w"),
                builder.findVertex("T.b"),
                EdgeKind.SWITCH,
                new Delay(1, 2));
        return builder.build();
    }

    private static PlaceRouteResult.OnFabric placed(String alike) {
        return placed(alike, Map.of("rows", "1010"));
    }

    private static PlaceRouteResult.OnFabric placed(String alike, Map<String, String> settings) {
        Netlist netlist =
                new Netlist(
                        "two",
                        List.of(
                                new Netlist.LogicalCell("s", "source", Map.of(), Optional.empty()),
                                new Netlist.LogicalCell("t", "lut", settings, Optional.empty())),
                        List.of(),
                        List.of(
                                new Netlist.LogicalNet(
                                        "n",
                                        new Terminal.CellPin(0, "q"),
                                        List.of(new Terminal.CellPin(1, "a")),
                                        false),
                                new Netlist.LogicalNet(
                                        "m", new Terminal.CellPin(1, "y"), List.of(), false)));
        PlaceRouteOptions options = PlaceRouteOptions.usual(1);
        return (PlaceRouteResult.OnFabric)
                PlaceAndRoute.placeAndRoute(fabric(alike), netlist, options, Progress.NONE);
    }

    @Test
    void theNetGoesToTheOtherInput() throws Exception {
        PlaceRouteResult.OnFabric placed = placed("in");
        assertThat(placed.report().unrouted()).isEmpty();
        Design design = placed.design();
        assertThat(design.findNet("n").orElseThrow().sinks())
                .containsExactly(new Terminal.CellPin(1, "b"));
        assertThat(design.findCell("t").map(Cell::settings)).contains(Map.of("rows", "1100"));
        for (boolean level : new boolean[] {false, true}) {
            DesignSimulation simulation = new DesignSimulation(design);
            simulation.begin(net -> net.equals("n") ? Optional.of(level) : Optional.empty());
            assertThat(simulation.net("m")).isEqualTo(level);
        }
    }

    @Test
    void anInputThatIsConstantStaysAsItIs() {
        Map<String, String> settings = Map.of("rows", "1010", "tied b", "1");
        PlaceRouteResult.OnFabric placed = placed("in", settings);
        assertThat(placed.report().unrouted()).hasSize(1);
        assertThat(placed.design().findCell("t").map(Cell::settings)).contains(settings);
    }

    @Test
    void pinsThatAreNotAlikeKeepTheirSignals() {
        assertThat(placed("").report().unrouted()).hasSize(1);
    }
}
