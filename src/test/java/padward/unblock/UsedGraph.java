package padward.unblock;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.Pad;
import padward.fabric.PinDirection;
import padward.fabric.SitePin;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.route.bound.LowerBound;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;
import padward.unblock.why.SearchLimits;

/**
 * A textbook graph as a fabric with a design: vertices are wires, some of them held by nets. Each
 * net is driven by a cell of its own, from whose pin an edge leads to every wire that it holds.
 */
public final class UsedGraph {
    private final List<String[]> edges = new ArrayList<>();
    private final Set<String> vertices = new LinkedHashSet<>();
    private final Map<String, List<String>> used = new LinkedHashMap<>();

    private boolean cellsStay;

    private UsedGraph() {}

    /** Edges as words {@code from>to}. */
    public static UsedGraph of(String edges) {
        UsedGraph graph = new UsedGraph();
        for (String edge : edges.split(" ")) {
            String[] ends = edge.split(">");
            graph.edges.add(ends);
            graph.vertices.addAll(List.of(ends));
        }
        return graph;
    }

    /** Lets a net hold vertices. */
    public UsedGraph used(String net, String... by) {
        used.put(net, List.of(by));
        return this;
    }

    /** Locks the cells that drive the nets, so that nets alone can be removed. */
    public UsedGraph withLockedCells() {
        cellsStay = true;
        return this;
    }

    /** The graph alone. */
    public Fabric fabric() {
        return build("", "");
    }

    private Fabric build(String source, String goal) {
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("graph", "", List.of(), List.of(), List.of()), 1, 1);
        vertices.stream()
                .filter(v -> !v.equals(goal) && !v.equals(source))
                .forEach(v -> builder.addWire(v, 0, 0, "wire"));
        List<SitePin> out = List.of(new SitePin("out", PinDirection.OUT));
        if (!source.isEmpty()) {
            builder.addSite(source, 0, "logic", List.of("register"), out);
            builder.addPad(goal, 0, "", "", PadDirections.OUT, Fabric.NOTHING, Fabric.NOTHING, "");
        }
        used.keySet()
                .forEach(n -> builder.addSite("of_" + n, 0, "logic", List.of("register"), out));
        Delay delay = new Delay(1, 2);
        for (String[] edge : edges) {
            int from = builder.findVertex(edge[0].equals(source) ? source + ".out" : edge[0]);
            int to = builder.findVertex(edge[1]);
            builder.addEdge(from, to, EdgeKind.SWITCH, delay);
        }
        used.forEach(
                (net, wires) -> {
                    int pin = builder.findVertex("of_" + net + ".out");
                    for (String wire : wires) {
                        builder.addEdge(pin, builder.findVertex(wire), EdgeKind.SWITCH, delay);
                    }
                });
        return builder.build();
    }

    UnblockExplanation explain(String source, String goal) {
        return explain(source, goal, new SearchLimits(1_000_000, 60_000, 6, 0));
    }

    UnblockExplanation explain(String source, String goal, SearchLimits limits) {
        Asked asked = ask(source, goal);
        Fabric fabric = asked.context().design().fabric();
        PathSearch search = new PathSearch(fabric);
        SearchOutcome any =
                search.run(
                        asked.starts(),
                        asked.pad().vertex(),
                        Corner.SLOW,
                        asked.context().atAPrice(),
                        LowerBound.NONE,
                        Progress.NONE);
        return new Explainer(
                        asked.context(),
                        asked.starts(),
                        asked.pad(),
                        ((SearchOutcome.Found) any).path(),
                        Corner.SLOW,
                        search,
                        limits,
                        Progress.NONE)
                .explain();
    }

    /** A net that is driven at {@code source}, and the pad {@code goal} that it is to come to. */
    public record Asked(QuestionContext context, SearchSources starts, Pad pad) {}

    /** The question how a net gets from one vertex to another. */
    public Asked ask(String source, String goal) {
        Fabric fabric = build(source, goal);
        List<Cell> cells = new ArrayList<>();
        List<Net> nets = new ArrayList<>();
        add(fabric, source, "asked", List.of(), cells, nets);
        used.forEach((net, wires) -> add(fabric, "of_" + net, net, wires, cells, nets));
        Design design = new Design("graph", "", fabric, Board.UNKNOWN, cells, nets, List.of());
        return new Asked(
                new QuestionContext(design, nets.get(0), Optional.empty()),
                SearchSources.at(nets.get(0).route().root()),
                fabric.pads().get(0));
    }

    private void add(
            Fabric fabric,
            String site,
            String name,
            List<String> wires,
            List<Cell> cells,
            List<Net> nets) {
        int number = fabric.findSite(site);
        Cell cell = new Cell(cells.size(), "cell_" + name, "register", number, Map.of(), cellsStay);
        cells.add(cell);
        RouteTree.Builder tree = new RouteTree.Builder(fabric.site(number).firstPin());
        wires.forEach(w -> tree.add(fabric.site(number).firstPin(), fabric.findVertex(w)));
        Terminal driver = new Terminal.CellPin(cell.id(), "out");
        nets.add(new Net(nets.size(), name, driver, List.of(), tree.build(), false));
    }
}
