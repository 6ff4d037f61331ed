package padward.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.Netlist;
import padward.design.Terminal;
import padward.fabric.CellKind;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;

/** Registers of several clocks, of which those of a tile can have only one. */
class SharedWiresPlacedTest {
    private static final int TILES = 6;
    private static final int IN_TILE = 3;
    private static final int CLOCKS = 2;
    private static final int REGISTERS = 6;

    private static void join(ExplicitBuilder builder, String from, String to, EdgeKind kind) {
        builder.addEdge(builder.findVertex(from), builder.findVertex(to), kind, new Delay(10, 20));
    }

    /** In each tile a wire that feeds the clock pins of all registers; it can take any clock. */
    private static Fabric fabric() {
        FabricInfo info =
                new FabricInfo(
                        "clocks",
                        "Invented.",
                        List.of(new CellKind("ff", true), new CellKind("source", true)),
                        List.of(),
                        List.of());
        ExplicitBuilder builder = new ExplicitBuilder(info, TILES, 1);
        for (int c = 0; c < CLOCKS; c++) {
            builder.addWire("global" + c, 0, 0, "clock");
        }
        for (int x = 0; x < TILES; x++) {
            builder.addWire("x" + x + "y0/ck", x, x, "clock");
        }
        for (int c = 0; c < CLOCKS; c++) {
            List<SitePin> out = List.of(new SitePin("q", PinDirection.OUT));
            builder.addSite("s" + c, 0, "source", List.of("source"), out);
        }
        for (int x = 0; x < TILES; x++) {
            for (int r = 0; r < IN_TILE; r++) {
                builder.addSite(
                        "x" + x + "y0/r" + r,
                        x,
                        "register",
                        List.of("ff"),
                        List.of(new SitePin("clk", PinDirection.IN)));
            }
        }
        for (int c = 0; c < CLOCKS; c++) {
            for (int g = 0; g < CLOCKS; g++) {
                join(builder, "s" + c + ".q", "global" + g, EdgeKind.SWITCH);
            }
            for (int x = 0; x < TILES; x++) {
                join(builder, "global" + c, "x" + x + "y0/ck", EdgeKind.SWITCH);
            }
        }
        for (int x = 0; x < TILES; x++) {
            for (int r = 0; r < IN_TILE; r++) {
                String pin = "x" + x + "y0/r" + r + ".clk";
                join(builder, "x" + x + "y0/ck", pin, EdgeKind.CONNECTION);
            }
        }
        return builder.build();
    }

    /** The same number of registers for each clock; there are some more places. */
    private static Netlist netlist() {
        List<Netlist.LogicalCell> cells = new ArrayList<>();
        List<Netlist.LogicalNet> nets = new ArrayList<>();
        for (int c = 0; c < CLOCKS; c++) {
            cells.add(new Netlist.LogicalCell("clock" + c, "source", Map.of(), Optional.empty()));
        }
        for (int c = 0; c < CLOCKS; c++) {
            List<Terminal> sinks = new ArrayList<>();
            for (int i = 0; i < REGISTERS; i++) {
                sinks.add(new Terminal.CellPin(cells.size(), "clk"));
                String name = "r" + c + "_" + i;
                cells.add(new Netlist.LogicalCell(name, "ff", Map.of(), Optional.empty()));
            }
            nets.add(
                    new Netlist.LogicalNet(
                            "clock" + c, new Terminal.CellPin(c, "q"), sinks, c > 0));
        }
        return new Netlist("clocks", cells, List.of(), nets);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void theRegistersOfATileHaveOneClock(long seed) {
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric(), netlist(), PlaceRouteOptions.usual(seed), Progress.NONE);
        assertThat(placed.report().unrouted()).isEmpty();
        Design design = placed.design();
        Map<Integer, Set<String>> clocksOfTile = new HashMap<>();
        for (Net net : design.nets()) {
            for (Terminal sink : net.sinks()) {
                int site = design.cells().get(((Terminal.CellPin) sink).cell()).site();
                clocksOfTile
                        .computeIfAbsent(design.fabric().site(site).tile(), t -> new HashSet<>())
                        .add(net.name());
            }
        }
        assertThat(clocksOfTile.values()).allMatch(clocks -> clocks.size() == 1);
    }
}
