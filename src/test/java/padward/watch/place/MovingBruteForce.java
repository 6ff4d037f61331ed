package padward.watch.place;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Deque;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Terminal;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;

/**
 * Whether a table of one or two inputs fits on a small design when other nets may be rerouted and
 * one cell relocated, by trying it all: which cell moves and where to, every free site and order of
 * pins for the table, every set of routes that do not meet. A net whose wires are wanted is routed
 * again, by which further nets may have to. Shares no code with what it judges.
 */
final class MovingBruteForce {
    /** What is on a vertex: a number from 0 is a net that could leave. */
    private static final int FREE = -1;

    private static final int CLOSED = -2;

    /** From here on: a net that was routed again. */
    private static final int AGAIN = 1_000;

    private final Design design;
    private final Fabric fabric;
    private final Set<String> observed = new HashSet<>();
    private final BitSet movable = new BitSet();
    private int steps;

    /** Of the cell that moves, where it is then; -1 for none. */
    private int movedCell = -1;

    private int movedTo = -1;

    /**
     * A connection to be made.
     *
     * @param net the net that is routed again, or -1 when it begins at the vertices stated
     */
    private record Connection(int net, int[] from, int to) {}

    private MovingBruteForce(Design design, CircuitElement.Table table, int steps) {
        this.design = design;
        this.fabric = design.fabric();
        this.steps = steps;
        table.inputs().forEach(s -> observed.add(((Signal.Observed) s).net()));
        for (Net net : design.nets()) {
            if (!net.clock() && !net.lock().keepsWires() && !observed.contains(net.name())) {
                movable.set(net.id());
            }
        }
    }

    /** Whether it fits; empty when that many steps were not enough to know. */
    static Optional<Boolean> fits(Design design, CircuitElement.Table table, int pad, int steps) {
        return new MovingBruteForce(design, table, steps)
                .fits(table, design.fabric().pads().get(pad).vertex());
    }

    private Optional<Boolean> fits(CircuitElement.Table table, int pad) {
        boolean could = couldFit(table, pad);
        if (!could && steps > 0) {
            return Optional.of(false);
        }
        if (fitsNow(table, pad)) {
            return Optional.of(true);
        }
        for (Cell cell : design.cells()) {
            boolean stays = stays(cell);
            for (int s = 0; s < fabric.siteCount() && !stays && steps > 0; s++) {
                if (design.occupancy().findCellOn(s).isEmpty()
                        && fabric.site(s).accepts().contains(cell.kind())) {
                    movedCell = cell.id();
                    movedTo = s;
                    if (fitsNow(table, pad)) {
                        return Optional.of(true);
                    }
                }
            }
        }
        return steps <= 0 ? Optional.empty() : Optional.of(false);
    }

    /** Whether each connection alone has a route if all that could move were not there at all. */
    private boolean couldFit(CircuitElement.Table table, int pad) {
        int[] at = new int[fabric.vertexCount()];
        Arrays.fill(at, FREE);
        for (Net net : design.nets()) {
            if (!movable.get(net.id())) {
                Arrays.stream(net.route().toVertices()).forEach(v -> at[v] = CLOSED);
            }
        }
        for (Cell cell : design.cells()) {
            if (stays(cell)) {
                close(cell.site(), at);
            }
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            if (!site.accepts().contains("register") || !isFree(s, at)) {
                continue;
            }
            boolean all = reaches(new int[] {site.findPin("out")}, pad, at);
            for (Signal input : table.inputs()) {
                String net = ((Signal.Observed) input).net();
                int[] from = design.findNet(net).orElseThrow().route().toVertices();
                all &=
                        reaches(from, site.findPin("in[0]"), at)
                                || reaches(from, site.findPin("in[1]"), at);
            }
            if (all) {
                return true;
            }
        }
        return false;
    }

    private boolean stays(Cell cell) {
        return cell.locked()
                || design.netsAt(cell.id()).stream().anyMatch(n -> !movable.get(n.id()));
    }

    private boolean fitsNow(CircuitElement.Table table, int pad) {
        int[] at = new int[fabric.vertexCount()];
        for (int v = 0; v < at.length; v++) {
            int there = design.occupancy().occupantId(v);
            boolean leaves =
                    design.occupancy().isOccupied(v)
                            && design.occupancy().findNetOn(v).isPresent()
                            && there == Occupant.ofNet(design.occupancy().findNetOn(v).get().id())
                            && movable.get(design.occupancy().findNetOn(v).get().id());
            at[v] =
                    leaves
                            ? design.occupancy().findNetOn(v).get().id()
                            : design.occupancy().isOccupied(v) ? CLOSED : FREE;
        }
        fabric.pads()
                .forEach(p -> at[p.vertex()] = at[p.vertex()] == FREE ? CLOSED : at[p.vertex()]);
        List<Connection> again = new ArrayList<>();
        if (movedCell >= 0) {
            for (Net net : design.netsAt(movedCell)) {
                leave(net.id(), at, again);
            }
            SiteView old = fabric.site(design.cells().get(movedCell).site());
            for (int pin = 0; pin < old.pins().size(); pin++) {
                at[old.firstPin() + pin] = FREE;
            }
            if (!isFree(movedTo, at)) {
                return false;
            }
            close(movedTo, at);
            for (Net net : design.netsAt(movedCell)) {
                at[vertexOf(net.driver())] = AGAIN + net.id();
            }
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            boolean taken =
                    s == movedTo
                            || design.occupancy()
                                    .findCellOn(s)
                                    .filter(c -> c.id() != movedCell)
                                    .isPresent();
            if (taken || !site.accepts().contains("register") || !isFree(s, at)) {
                continue;
            }
            for (int swapped = 0; swapped < 2; swapped++) {
                List<Connection> all = new ArrayList<>();
                all.add(new Connection(-1, new int[] {site.findPin("out")}, pad));
                for (int i = 0; i < table.inputs().size(); i++) {
                    String net = ((Signal.Observed) table.inputs().get(i)).net();
                    int[] from = design.findNet(net).orElseThrow().route().toVertices();
                    int pin = site.findPin("in[" + (swapped == 1 ? 1 - i : i) + "]");
                    all.add(new Connection(-1, from, pin));
                }
                all.addAll(again);
                int[] now = at.clone();
                close(s, now);
                if (connect(all, 0, now)) {
                    return true;
                }
            }
        }
        return false;
    }

    private boolean isFree(int site, int[] at) {
        SiteView view = fabric.site(site);
        for (int pin = 0; pin < view.pins().size(); pin++) {
            if (at[view.firstPin() + pin] != FREE) {
                return false;
            }
        }
        return true;
    }

    private void close(int site, int[] at) {
        SiteView view = fabric.site(site);
        Arrays.fill(at, view.firstPin(), view.firstPin() + view.pins().size(), CLOSED);
    }

    private int vertexOf(Terminal end) {
        return end instanceof Terminal.CellPin pin && pin.cell() == movedCell
                ? fabric.site(movedTo).findPin(pin.pin())
                : design.vertexOf(end);
    }

    /** Takes a net off its wires; it keeps its ends, and has to come to them again. */
    private void leave(int net, int[] at, List<Connection> again) {
        for (int v = 0; v < at.length; v++) {
            at[v] = at[v] == net ? FREE : at[v];
        }
        Net whole = design.nets().get(net);
        BitSet reached = new BitSet();
        Arrays.stream(whole.route().toVertices()).forEach(reached::set);
        for (Terminal sink : whole.sinks()) {
            at[design.vertexOf(sink)] = CLOSED;
            if (reached.get(design.vertexOf(sink))) {
                again.add(new Connection(net, new int[0], vertexOf(sink)));
            }
        }
        at[design.vertexOf(whole.driver())] = AGAIN + net;
    }

    private int[] starts(Connection connection, int[] at) {
        if (connection.net() < 0) {
            return connection.from();
        }
        List<Integer> result = new ArrayList<>();
        for (int v = 0; v < at.length; v++) {
            if (at[v] == AGAIN + connection.net()) {
                result.add(v);
            }
        }
        return result.stream().mapToInt(v -> v).toArray();
    }

    private boolean connect(List<Connection> all, int next, int[] at) {
        for (int i = next; i < all.size(); i++) {
            if (!reaches(starts(all.get(i), at), all.get(i).to(), at)) {
                return false;
            }
        }
        if (next == all.size()) {
            return true;
        }
        for (int start : starts(all.get(next), at)) {
            if (walk(all, next, start, at)) {
                return true;
            }
        }
        return false;
    }

    /** All routes from a vertex on, each vertex once. */
    private boolean walk(List<Connection> all, int next, int from, int[] at) {
        Connection now = all.get(next);
        if (!reaches(new int[] {from}, now.to(), at)) {
            return false;
        }
        EdgeCursor edges = fabric.edgesOut();
        List<int[]> out = new ArrayList<>();
        edges.reset(from);
        while (edges.next()) {
            out.add(new int[] {edges.other(), edges.kind() == EdgeKind.PASS_THROUGH ? 1 : 0});
        }
        for (int[] step : out) {
            int vertex = step[0];
            if (vertex == now.to()) {
                int[] done = at.clone();
                done[vertex] = now.net() < 0 ? CLOSED : AGAIN + now.net();
                if (connect(all, next + 1, done)) {
                    return true;
                }
            } else if (canEnter(vertex, at)) {
                int[] more = at.clone();
                List<Connection> longer = new ArrayList<>(all);
                if (more[vertex] >= 0) {
                    leave(more[vertex], more, longer);
                }
                if (more[vertex] != FREE) {
                    continue;
                }
                int mark = now.net() < 0 ? CLOSED : AGAIN + now.net();
                more[vertex] = mark;
                if (step[1] == 1) {
                    SiteView site = fabric.site(fabric.siteOf(vertex));
                    for (int v = site.firstPin(); v < site.firstPin() + site.pins().size(); v++) {
                        more[v] = more[v] == FREE ? CLOSED : more[v];
                    }
                }
                if (walk(longer, next, vertex, more)) {
                    return true;
                }
            }
        }
        return false;
    }

    private static boolean canEnter(int vertex, int[] at) {
        return at[vertex] == FREE || at[vertex] >= 0 && at[vertex] < AGAIN;
    }

    private boolean reaches(int[] from, int to, int[] at) {
        if (--steps <= 0) {
            return false;
        }
        BitSet seen = new BitSet();
        Deque<Integer> queue = new ArrayDeque<>();
        for (int vertex : from) {
            seen.set(vertex);
            queue.add(vertex);
        }
        EdgeCursor edges = fabric.edgesOut();
        while (!queue.isEmpty()) {
            edges.reset(queue.poll());
            while (edges.next()) {
                if (edges.other() == to) {
                    return true;
                }
                if (canEnter(edges.other(), at) && !seen.get(edges.other())) {
                    seen.set(edges.other());
                    queue.add(edges.other());
                }
            }
        }
        return false;
    }
}
