package padward.example;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.fabric.PinDirection;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

/** Makes small random designs for property tests: random cells, random nets, random detours. */
public final class RandomDesigns {
    private final Fabric fabric;
    private final Random random;
    private final BitSet used = new BitSet();
    private final BitSet usedPins = new BitSet();
    private final List<Cell> cells = new ArrayList<>();
    private final List<Port> ports = new ArrayList<>();
    private final List<Net> nets = new ArrayList<>();

    private RandomDesigns(Fabric fabric, Random random) {
        this.fabric = fabric;
        this.random = random;
    }

    /** A design with up to that many cells, and a net for each cell that can reach a sink. */
    public static Design on(Fabric fabric, int mostCells, Random random) {
        RandomDesigns made = new RandomDesigns(fabric, random);
        made.place(mostCells);
        made.cells.forEach(made::driveFrom);
        return new Design(
                "random", "invented", fabric, Board.UNKNOWN, made.cells, made.nets, made.ports);
    }

    private void place(int mostCells) {
        for (int i = 0; i < mostCells; i++) {
            SiteView site = fabric.site(random.nextInt(fabric.siteCount()));
            if (used.get(site.firstPin())) {
                continue;
            }
            Map<String, String> settings =
                    random.nextInt(4) == 0 ? Map.of("through", "open") : Map.of();
            String kind = site.accepts().get(0);
            cells.add(new Cell(cells.size(), "c" + cells.size(), kind, site.id(), settings));
            used.set(site.firstPin(), site.firstPin() + site.pins().size());
        }
        for (int i = 0; i < 3; i++) {
            int pad = random.nextInt(fabric.pads().size());
            if (!used.get(fabric.pads().get(pad).vertex())) {
                ports.add(new Port(ports.size(), "p" + pad, PortDirection.OUT, pad, ""));
                used.set(fabric.pads().get(pad).vertex());
            }
        }
    }

    private void driveFrom(Cell cell) {
        SiteView site = fabric.site(cell.site());
        for (int pin = 0; pin < site.pins().size(); pin++) {
            if (site.pins().get(pin).direction() == PinDirection.OUT) {
                addNet(cell, site.pins().get(pin).name(), site.firstPin() + pin);
                return;
            }
        }
    }

    private void addNet(Cell cell, String pin, int root) {
        RouteTree.Builder tree = new RouteTree.Builder(root);
        List<Integer> onTree = new ArrayList<>(List.of(root));
        List<Terminal> sinks = new ArrayList<>();
        for (int i = random.nextInt(5); i > 0; i--) {
            detour(tree, onTree);
        }
        int wanted = 1 + random.nextInt(3);
        for (int i = 0; i < wanted; i++) {
            Terminal sink = anySink();
            int vertex = vertexOf(sink);
            if (!usedPins.get(vertex) && extend(tree, onTree, vertex)) {
                usedPins.set(vertex);
                sinks.add(sink);
            }
        }
        if (!sinks.isEmpty()) {
            Terminal driver = new Terminal.CellPin(cell.id(), pin);
            nets.add(new Net(nets.size(), "n" + nets.size(), driver, sinks, tree.build(), false));
        } else {
            onTree.stream().filter(v -> v != root).forEach(used::clear);
        }
    }

    private void detour(RouteTree.Builder tree, List<Integer> onTree) {
        int vertex = random.nextInt(fabric.vertexCount());
        if (fabric.kind(vertex) == VertexKind.WIRE && !used.get(vertex)) {
            extend(tree, onTree, vertex);
        }
    }

    private Terminal anySink() {
        if (!ports.isEmpty() && random.nextInt(3) == 0) {
            return new Terminal.PortEnd(random.nextInt(ports.size()));
        }
        Cell cell = cells.get(random.nextInt(cells.size()));
        SiteView site = fabric.site(cell.site());
        List<String> inputs =
                site.pins().stream()
                        .filter(p -> p.direction() == PinDirection.IN)
                        .map(p -> p.name())
                        .toList();
        return new Terminal.CellPin(cell.id(), inputs.get(random.nextInt(inputs.size())));
    }

    private int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return fabric.site(cells.get(at.cell()).site()).findPin(at.pin());
        }
        return fabric.pads().get(ports.get(((Terminal.PortEnd) terminal).port()).pad()).vertex();
    }

    private boolean extend(RouteTree.Builder tree, List<Integer> onTree, int goal) {
        BitSet closed = (BitSet) used.clone();
        closed.clear(goal);
        int[] starts = onTree.stream().mapToInt(Integer::intValue).toArray();
        SearchOutcome outcome =
                new PathSearch(fabric)
                        .run(
                                new SearchSources(starts, new long[starts.length]),
                                goal,
                                Corner.SLOW,
                                new FreeOnlyCost(closed),
                                LowerBound.NONE,
                                Progress.NONE);
        if (!(outcome instanceof SearchOutcome.Found found) || found.path().size() < 2) {
            return false;
        }
        for (int i = 1; i < found.path().size(); i++) {
            int vertex = found.path().vertex(i);
            tree.add(found.path().vertex(i - 1), vertex);
            onTree.add(vertex);
            used.set(vertex);
            int site = fabric.siteOf(vertex);
            if (site >= 0 && vertex != goal) {
                SiteView view = fabric.site(site);
                used.set(view.firstPin(), view.firstPin() + view.pins().size());
            }
        }
        return true;
    }
}
