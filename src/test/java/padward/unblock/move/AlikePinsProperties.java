package padward.unblock.move;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntSet;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.example.OddDesigns;
import padward.fabric.CellFunction;
import padward.fabric.CellKind;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.search.CheckedRouteFinder;
import padward.route.search.PathSearch;
import padward.route.search.RouteFinder;
import padward.synth.DesignMaker;
import padward.unblock.release.QuestionContext;
import padward.watch.simulate.DesignSimulation;

/** Rerouted nets whose ends may go to pins that are alike. */
class AlikePinsProperties {
    private int swapped;
    private int kept;
    private int stuck;

    private static NetRerouter rerouter(Design design, Net asked) {
        PathSearch search = new PathSearch(design.fabric());
        RouteFinder finder =
                (sources, goal, corner, model, progress) ->
                        search.run(sources, goal, corner, model, LowerBound.NONE, progress);
        return new NetRerouter(
                new QuestionContext(design, asked, Optional.empty()),
                new CheckedRouteFinder(finder, Corner.SLOW, Progress.NONE));
    }

    /** The whole net again, with some wires and pins taken away. */
    @Test
    void aReroutedEndIsWhereBruteForceFindsIt() {
        for (int i = 0; i < 7_000; i++) {
            long seed = OddDesigns.WITH_ALIKE_PINS + i;
            Design design = withConstants(OddDesigns.make(seed), new Random(seed));
            if (!design.fabric().switchGroups().isEmpty()) {
                continue;
            }
            Random random = new Random(seed);
            for (Net net : design.nets()) {
                Optional<Terminal.CellPin> end = onlyEnd(design, net);
                if (end.isPresent()) {
                    check(design, net, end.get(), random, "seed " + seed + ", net " + net.name());
                }
            }
        }
        assertThat(List.of(swapped, kept, stuck)).allMatch(n -> n > 50);
    }

    /** With constants stated at some pins at which no net ends. */
    private static Design withConstants(Design design, Random random) {
        List<Cell> cells = new ArrayList<>();
        for (Cell cell : design.cells()) {
            Map<String, String> settings = new HashMap<>(cell.settings());
            for (SitePin pin : design.fabric().site(cell.site()).pins()) {
                Terminal at = new Terminal.CellPin(cell.id(), pin.name());
                if (pin.direction() == PinDirection.IN
                        && design.nets().stream().noneMatch(n -> n.ends().contains(at))
                        && random.nextInt(10) == 0) {
                    settings.put("tied " + pin.name(), "1");
                }
            }
            cells.add(cell.withSettings(settings));
        }
        return withCells(design, cells);
    }

    private static Design withCells(Design design, List<Cell> cells) {
        return new Design(
                design.name(),
                design.note(),
                design.fabric(),
                design.board(),
                cells,
                List.copyOf(design.nets()),
                List.copyOf(design.ports()));
    }

    private static Optional<Terminal.CellPin> onlyEnd(Design design, Net net) {
        boolean one =
                net.sinks().size() == 1
                        && net.route().size() > 1
                        && net.route().placeOf(design.vertexOf(net.sinks().get(0))) > 0
                        && !design.fabric()
                                .unusable()
                                .isVertex(design.vertexOf(net.sinks().get(0)));
        return one && net.sinks().get(0) instanceof Terminal.CellPin at
                ? Optional.of(at)
                : Optional.empty();
    }

    private void check(Design design, Net net, Terminal.CellPin end, Random random, String what) {
        Fabric fabric = design.fabric();
        int sink = design.vertexOf(end);
        NetRerouter rerouter = rerouter(design, design.nets().get(0));
        OccupancyOverlay overlay = new OccupancyOverlay(design.occupancy(), fabric.switchGroups());
        rerouter.giveBack(net, RouteTree.of(net.route().root()), overlay);
        BitSet shut = new BitSet();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) == VertexKind.WIRE && random.nextInt(3) == 0) {
                shut.set(v);
                overlay.take(v);
            }
        }
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (overlay.isTaken(v)) {
                shut.set(v);
            }
        }
        Map<Integer, Long> arrivals = arrivals(fabric, net.route().root(), shut);
        long own = arrivals.getOrDefault(sink, Long.MAX_VALUE);
        long other = Long.MAX_VALUE;
        for (int pin : freeAlike(design, end, sink)) {
            other = Math.min(other, arrivals.getOrDefault(pin, Long.MAX_VALUE));
        }
        Optional<NetRerouter.Rerouted> found =
                rerouter.route(
                        net,
                        RouteTree.of(net.route().root()),
                        IntSet.of(sink),
                        design::vertexOf,
                        true,
                        overlay);
        long expected = own < Long.MAX_VALUE ? own : other;
        assertThat(found.isPresent()).as(what).isEqualTo(expected < Long.MAX_VALUE);
        if (found.isEmpty()) {
            stuck++;
            return;
        }
        assertThat(found.get().swaps().isEmpty()).as(what).isEqualTo(own < Long.MAX_VALUE);
        RouteTree tree = found.get().tree();
        int last = tree.vertex(tree.size() - 1);
        assertThat(delay(fabric, tree)).as(what).isEqualTo(expected);
        if (own < Long.MAX_VALUE) {
            kept++;
            assertThat(last).as(what).isEqualTo(sink);
            return;
        }
        swapped++;
        Edit.PinSwap swap = found.get().swaps().get(0);
        assertThat(last).as(what).isEqualTo(fabric.site(fabric.siteOf(sink)).findPin(swap.with()));
        Outcome outcome = Outcome.of(design, List.of(found.get().of(net)));
        if (!design.cells().get(end.cell()).locked() && !net.lock().keepsWires()) {
            Design after = ((Outcome.Applied) outcome).design();
            assertThat(after.nets().get(net.id()).sinks())
                    .as(what)
                    .containsExactly(new Terminal.CellPin(end.cell(), swap.with()));
        }
    }

    /** Pins of the same site with the same word, without constant, net that ends or passes. */
    private static List<Integer> freeAlike(Design design, Terminal.CellPin end, int sink) {
        Cell cell = design.cells().get(end.cell());
        SiteView site = design.fabric().site(cell.site());
        List<Integer> result = new ArrayList<>();
        if (cell.locked()) {
            return result;
        }
        SitePin own = site.pins().get(sink - site.firstPin());
        for (int i = 0; i < site.pins().size(); i++) {
            SitePin pin = site.pins().get(i);
            Terminal at = new Terminal.CellPin(end.cell(), pin.name());
            boolean free =
                    pin.direction() == PinDirection.IN
                            && !pin.alike().isEmpty()
                            && pin.alike().equals(own.alike())
                            && !pin.name().equals(own.name())
                            && !cell.settings().containsKey("tied " + pin.name())
                            && design.nets().stream().noneMatch(n -> n.ends().contains(at))
                            && design.nets().stream().noneMatch(n -> goesOver(n, site, pin.name()));
            if (free) {
                result.add(site.firstPin() + i);
            }
        }
        return result;
    }

    private static boolean goesOver(Net net, SiteView site, String pin) {
        return net.route().placeOf(site.findPin(pin)) >= 0;
    }

    /** The least delay to each vertex, by relaxing all edges until nothing changes. */
    private static Map<Integer, Long> arrivals(Fabric fabric, int root, BitSet shut) {
        Map<Integer, Long> inside = new HashMap<>(Map.of(root, 0L));
        Map<Integer, Long> result = new TreeMap<>();
        EdgeCursor edges = fabric.edgesOut();
        boolean changed = true;
        while (changed) {
            changed = false;
            for (int from : List.copyOf(inside.keySet())) {
                edges.reset(from);
                while (edges.next()) {
                    int to = edges.other();
                    long at = inside.get(from) + edges.delayPs(Corner.SLOW);
                    result.merge(to, at, Math::min);
                    boolean enter = !shut.get(to) && fabric.kind(to) != VertexKind.PAD;
                    if (enter && at < inside.getOrDefault(to, Long.MAX_VALUE)) {
                        inside.put(to, at);
                        changed = true;
                    }
                }
            }
        }
        return result;
    }

    private static long delay(Fabric fabric, RouteTree tree) {
        EdgeCursor edges = fabric.edgesOut();
        long sum = 0;
        for (int place = tree.size() - 1; place > 0; place = tree.parent(place)) {
            edges.reset(tree.vertex(tree.parent(place)));
            while (edges.next()) {
                if (edges.other() == tree.vertex(place)) {
                    sum += edges.delayPs(Corner.SLOW);
                }
            }
        }
        return sum;
    }

    /**
     * A made device, whose tables' contents follow their swapped pins: all nets do what they did.
     */
    @Test
    void theDesignDoesTheSame() throws Exception {
        Design design =
                withContents(DesignMaker.makeIrregular(4_000, 5, 0.4, Progress.NONE).design());
        NetRerouter rerouter = rerouter(design, design.nets().get(0));
        Random random = new Random(7);
        List<Net> nets = new ArrayList<>(design.nets());
        int tried = 0;
        for (Net net : nets) {
            Optional<Terminal.CellPin> end = tableEnd(design, net);
            if (end.isEmpty() || tried == 40) {
                continue;
            }
            OccupancyOverlay overlay =
                    new OccupancyOverlay(design.occupancy(), design.fabric().switchGroups());
            int sink = design.vertexOf(end.get());
            // nothing leads to the pin itself any more
            EdgeCursor into = design.fabric().edgesIn();
            rerouter.giveBack(net, RouteTree.of(net.route().root()), overlay);
            into.reset(sink);
            while (into.next()) {
                overlay.reserve(into.other());
            }
            IntSet sinks = rerouter.reachedSinks(net, design::vertexOf);
            Optional<NetRerouter.Rerouted> found =
                    overlay.isReserved(net.route().root())
                            ? Optional.empty()
                            : rerouter.route(
                                    net,
                                    RouteTree.of(net.route().root()),
                                    sinks,
                                    design::vertexOf,
                                    true,
                                    overlay);
            if (found.isEmpty() || found.get().swaps().isEmpty()) {
                continue;
            }
            tried++;
            Outcome outcome = Outcome.of(design, List.of(found.get().of(net)));
            Design after = ((Outcome.Applied) outcome).design();
            for (int run = 0; run < 20; run++) {
                long seed = random.nextLong();
                assertThat(levels(after, seed)).as(net.name()).isEqualTo(levels(design, seed));
            }
        }
        assertThat(tried).isGreaterThan(10);
    }

    /** With drawn contents of its tables, which depend on what is connected only. */
    private static Design withContents(Design design) {
        Random random = new Random(11);
        List<Cell> cells = new ArrayList<>();
        for (Cell cell : design.cells()) {
            Optional<CellFunction.LookupTable> table = table(design, cell);
            if (table.isEmpty()) {
                cells.add(cell);
                continue;
            }
            int connected = 0;
            for (int i = 0; i < table.get().inputs().size(); i++) {
                int pin = design.fabric().site(cell.site()).findPin(table.get().inputs().get(i));
                connected |= design.occupancy().findNetOn(pin).isPresent() ? 1 << i : 0;
            }
            Map<Integer, Boolean> drawn = new HashMap<>();
            BigInteger rows = BigInteger.ZERO;
            for (int row = 0; row < 1 << table.get().inputs().size(); row++) {
                boolean high = drawn.computeIfAbsent(row & connected, r -> random.nextBoolean());
                rows = high ? rows.setBit(row) : rows;
            }
            boolean binary = table.get().digits() == CellFunction.Digits.BINARY;
            String digits = rows.toString(binary ? 2 : 16);
            cells.add(
                    cell.withSettings(
                            Map.of(table.get().setting(), table.get().prefix() + digits)));
        }
        return withCells(design, cells);
    }

    private static Optional<Terminal.CellPin> tableEnd(Design design, Net net) {
        for (Terminal sink : net.sinks()) {
            if (sink instanceof Terminal.CellPin at
                    && table(design, at).isPresent()
                    && net.route().placeOf(design.vertexOf(sink)) > 0) {
                return Optional.of(at);
            }
        }
        return Optional.empty();
    }

    private static Optional<CellFunction.LookupTable> table(Design design, Terminal.CellPin at) {
        return table(design, design.cells().get(at.cell()));
    }

    private static Optional<CellFunction.LookupTable> table(Design design, Cell cell) {
        return design.fabric().info().findCellKind(cell.kind()).flatMap(CellKind::lookupTable);
    }

    /** What tables drive when all else has levels that are drawn by name. */
    private static Map<String, Boolean> levels(Design design, long seed) throws Exception {
        DesignSimulation simulation = new DesignSimulation(design);
        simulation.begin(
                net -> {
                    boolean table =
                            design.findNet(net).orElseThrow().driver()
                                            instanceof Terminal.CellPin at
                                    && table(design, at).isPresent();
                    return table
                            ? Optional.empty()
                            : Optional.of(new Random(seed ^ net.hashCode()).nextBoolean());
                });
        Map<String, Boolean> result = new TreeMap<>();
        for (Net net : design.nets()) {
            result.put(net.name(), simulation.net(net.name()));
        }
        return result;
    }
}
