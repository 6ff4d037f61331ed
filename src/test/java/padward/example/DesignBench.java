package padward.example;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Map;
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
import padward.fabric.SiteView;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

/**
 * Builds small designs for tests by hand: cells go to given sites, nets are routed one after the
 * other over free vertices. A net can be steered by naming vertices that it must pass.
 */
public final class DesignBench {
    private final Fabric fabric;
    private final List<Cell> cells = new ArrayList<>();
    private final List<Net> nets = new ArrayList<>();
    private final List<Port> ports = new ArrayList<>();
    private final BitSet used = new BitSet();
    private final PathSearch search;

    /** A bench over one fabric. */
    public DesignBench(Fabric fabric) {
        this.fabric = fabric;
        this.search = new PathSearch(fabric);
    }

    /** Places a cell; other routes avoid the pins of its site. */
    public DesignBench cell(String name, String kind, String site) {
        int number = fabric.findSite(site);
        SiteView view = fabric.site(number);
        cells.add(new Cell(cells.size(), name, kind, number, Map.of()));
        used.set(view.firstPin(), view.firstPin() + view.pins().size());
        return this;
    }

    /** Puts a port on a pad. */
    public DesignBench port(String name, PortDirection direction, String pad) {
        int index = 0;
        while (!fabric.pads().get(index).name().equals(pad)) {
            index++;
        }
        ports.add(new Port(ports.size(), name, direction, index, ""));
        used.set(fabric.pads().get(index).vertex());
        return this;
    }

    /** A terminal from words: {@code cell.pin}, or a port's name. */
    private Terminal terminal(String text) {
        for (Port port : ports) {
            if (port.name().equals(text)) {
                return new Terminal.PortEnd(port.id());
            }
        }
        int dot = text.lastIndexOf('.');
        String cellName = text.substring(0, dot);
        Cell cell = cells.stream().filter(c -> c.name().equals(cellName)).findFirst().orElseThrow();
        return new Terminal.CellPin(cell.id(), text.substring(dot + 1));
    }

    private int vertexOf(Terminal terminal) {
        if (terminal instanceof Terminal.CellPin at) {
            return fabric.site(cells.get(at.cell()).site()).findPin(at.pin());
        }
        return fabric.pads().get(ports.get(((Terminal.PortEnd) terminal).port()).pad()).vertex();
    }

    /** Routes a net from its driver to each sink. */
    public DesignBench net(String name, String driver, String... sinks) {
        return net(name, false, List.of(), driver, sinks);
    }

    /** Routes a net over named vertices first, then to each sink. */
    public DesignBench net(
            String name, boolean clock, List<String> over, String driver, String... sinks) {
        Terminal from = terminal(driver);
        int root = vertexOf(from);
        RouteTree.Builder tree = new RouteTree.Builder(root);
        List<Integer> onTree = new ArrayList<>(List.of(root));
        for (String vertex : over) {
            extend(name, tree, onTree, fabric.findVertex(vertex));
        }
        List<Terminal> ends = new ArrayList<>();
        for (String sink : sinks) {
            Terminal end = terminal(sink);
            ends.add(end);
            extend(name, tree, onTree, vertexOf(end));
        }
        nets.add(new Net(nets.size(), name, from, ends, tree.build(), clock));
        return this;
    }

    private void extend(String net, RouteTree.Builder tree, List<Integer> onTree, int goal) {
        BitSet closed = (BitSet) used.clone();
        closed.clear(goal);
        int[] starts = onTree.stream().mapToInt(Integer::intValue).toArray();
        SearchOutcome outcome =
                search.run(
                        new SearchSources(starts, new long[starts.length]),
                        goal,
                        Corner.SLOW,
                        new FreeOnlyCost(closed),
                        LowerBound.NONE,
                        Progress.NONE);
        if (!(outcome instanceof SearchOutcome.Found found)) {
            throw new IllegalStateException(net + " cannot reach " + fabric.vertexName(goal));
        }
        for (int i = 1; i < found.path().size(); i++) {
            int vertex = found.path().vertex(i);
            tree.add(found.path().vertex(i - 1), vertex);
            onTree.add(vertex);
            used.set(vertex);
        }
    }

    /** The finished design. */
    public Design build(String name, String note, Board board) {
        return new Design(name, note, fabric, board, cells, nets, ports);
    }
}
