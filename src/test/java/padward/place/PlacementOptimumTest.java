package padward.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.design.Netlist;
import padward.design.Terminal;
import padward.fabric.CellKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.explicit.ExplicitBuilder;

/** Placements of a few cells against the best of all placements, tried one by one. */
class PlacementOptimumTest {
    private static final int SIDE = 3;
    private static final int CELLS = 6;

    /** A grid with one site in each tile, every other one of which takes small cells only. */
    private static Fabric grid() {
        FabricInfo info =
                new FabricInfo(
                        "grid",
                        "Invented.",
                        List.of(new CellKind("small", false), new CellKind("large", false)),
                        List.of(),
                        List.of());
        ExplicitBuilder builder = new ExplicitBuilder(info, SIDE, SIDE);
        builder.addWire("x0y0/w", 0, 0, "w");
        List<SitePin> pins =
                List.of(new SitePin("in", PinDirection.IN), new SitePin("out", PinDirection.OUT));
        for (int tile = 0; tile < SIDE * SIDE; tile++) {
            List<String> accepts = tile % 2 == 0 ? List.of("small") : List.of("small", "large");
            builder.addSite("s" + tile, tile, "site", accepts, pins);
        }
        return builder.build();
    }

    private static Netlist circuit(Random random) {
        List<Netlist.LogicalCell> cells = new ArrayList<>();
        for (int c = 0; c < CELLS; c++) {
            String kind = random.nextInt(3) == 0 ? "large" : "small";
            cells.add(new Netlist.LogicalCell("c" + c, kind, Map.of(), Optional.empty()));
        }
        List<Netlist.LogicalNet> nets = new ArrayList<>();
        for (int c = 0; c < CELLS; c++) {
            Set<Integer> ends = new HashSet<>();
            for (int s = 0; s < 2; s++) {
                ends.add(random.nextInt(CELLS));
            }
            List<Terminal> sinks = new ArrayList<>();
            ends.forEach(e -> sinks.add(new Terminal.CellPin(e, "in")));
            nets.add(new Netlist.LogicalNet("n" + c, new Terminal.CellPin(c, "out"), sinks, false));
        }
        return new Netlist("tiny", cells, List.of(), nets);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6})
    void noPlacementIsBetter(long seed) {
        Fabric fabric = grid();
        Random random = new Random(seed);
        Netlist netlist = circuit(random);
        PackedNetlist packed = new Packer(netlist, Set.of(), CellPlaces.of(fabric), false).pack();
        PlacementSites sites =
                new PlacementSites(
                        fabric,
                        packed.groups().size(),
                        (g, s) ->
                                s < fabric.siteCount()
                                        && fabric.site(s)
                                                .accepts()
                                                .contains(packed.groups().get(g)));
        PlacementCost cost = new PlacementCost(fabric, packed, new DistanceDelayModel(0, 1), 0);
        SharedSignalWires shared =
                new SharedSignalWires(fabric, packed, CellPlaces.of(fabric), sites);
        Placement placement = new Placement(sites, cost, shared, packed.blockCount());
        int least = best(netlist, packed, sites, new int[CELLS], 0, new HashSet<>(), fabric);
        putAnywhere(packed, sites, placement, 0, new HashSet<>());
        ArrivalTimes times = new ArrivalTimes(netlist, new boolean[CELLS], new int[CELLS]);
        Annealer annealer = new Annealer(fabric, packed, sites, cost, times, placement, random);
        annealer.run(1, Progress.NONE);
        assertThat(annealer.total()).isEqualTo(least);
    }

    private static boolean putAnywhere(
            PackedNetlist packed,
            PlacementSites sites,
            Placement placement,
            int block,
            Set<Integer> used) {
        if (block == packed.blockCount()) {
            return true;
        }
        for (int spot = sites.count() - 1; spot >= 0; spot--) {
            if (sites.accepts(spot, packed.groupOfBlock()[block]) && used.add(spot)) {
                if (putAnywhere(packed, sites, placement, block + 1, used)) {
                    placement.put(block, spot);
                    return true;
                }
                used.remove(spot);
            }
        }
        return false;
    }

    /**
     * All placements; the wire length is calculated from the cells' places, not by {@link
     * PlacementCost}.
     */
    private static int best(
            Netlist netlist,
            PackedNetlist packed,
            PlacementSites sites,
            int[] tiles,
            int cell,
            Set<Integer> used,
            Fabric fabric) {
        if (cell == CELLS) {
            int sum = 0;
            for (Netlist.LogicalNet net : netlist.nets()) {
                List<Integer> at = new ArrayList<>();
                at.add(tiles[((Terminal.CellPin) net.driver()).cell()]);
                net.sinks().forEach(s -> at.add(tiles[((Terminal.CellPin) s).cell()]));
                var x = at.stream().mapToInt(fabric::column).summaryStatistics();
                var y = at.stream().mapToInt(fabric::row).summaryStatistics();
                sum += x.getMax() - x.getMin() + y.getMax() - y.getMin();
            }
            return sum;
        }
        int least = Integer.MAX_VALUE;
        int group = packed.groupOfBlock()[packed.blockOfCell()[cell]];
        for (int spot = 0; spot < sites.count(); spot++) {
            if (sites.accepts(spot, group) && used.add(spot)) {
                tiles[cell] = sites.tile(spot);
                least =
                        Math.min(
                                least, best(netlist, packed, sites, tiles, cell + 1, used, fabric));
                used.remove(spot);
            }
        }
        return least;
    }
}
