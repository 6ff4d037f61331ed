package padward.watch.place;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Deque;
import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.watch.circuit.CircuitElement;
import padward.watch.circuit.Signal;

/**
 * Whether a table of one or two inputs fits on a small design, by trying every free site, every
 * order of pins and every set of routes that do not meet. Shares no code with what it judges.
 */
final class BruteForce {
    private final Design design;
    private final Fabric fabric;
    private final BitSet used = new BitSet();
    private int steps;

    /** A connection to be made: from any of some vertices to one. */
    private record Connection(int[] from, int to) {}

    private BruteForce(Design design, int steps) {
        this.design = design;
        this.fabric = design.fabric();
        this.steps = steps;
        for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
            if (design.occupancy().isOccupied(vertex)) {
                used.set(vertex);
            }
        }
    }

    /** Whether it fits; empty when that many steps were not enough to know. */
    static Optional<Boolean> fits(Design design, CircuitElement.Table table, int pad, int steps) {
        return new BruteForce(design, steps).fits(table, design.fabric().pads().get(pad));
    }

    private Optional<Boolean> fits(CircuitElement.Table table, Pad pad) {
        if (design.findPortOn(fabric.pads().indexOf(pad)).isPresent()) {
            return Optional.empty();
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            boolean free = site.accepts().contains("register");
            for (int pin = 0; pin < site.pins().size(); pin++) {
                free &= !used.get(site.firstPin() + pin);
            }
            if (!free || design.occupancy().findCellOn(s).isPresent()) {
                continue;
            }
            for (boolean swapped : new boolean[] {false, true}) {
                List<Connection> all = new ArrayList<>();
                all.add(new Connection(new int[] {site.findPin("out")}, pad.vertex()));
                for (int i = 0; i < table.inputs().size(); i++) {
                    String net = ((Signal.Observed) table.inputs().get(i)).net();
                    Net from = design.findNet(net).orElseThrow();
                    String pin = "in[" + (swapped ? 1 - i : i) + "]";
                    all.add(new Connection(from.route().toVertices(), site.findPin(pin)));
                }
                // The cell uses its pins: routes only end there.
                BitSet taken = (BitSet) used.clone();
                taken.set(site.firstPin(), site.firstPin() + site.pins().size());
                fabric.pads().forEach(p -> taken.set(p.vertex()));
                if (connect(all, 0, taken)) {
                    return Optional.of(true);
                }
                if (steps <= 0) {
                    return Optional.empty();
                }
            }
        }
        return Optional.of(false);
    }

    private boolean connect(List<Connection> all, int next, BitSet taken) {
        for (int i = next; i < all.size(); i++) {
            if (!reaches(all.get(i).from(), all.get(i).to(), taken)) {
                return false;
            }
        }
        if (next == all.size()) {
            return true;
        }
        for (int start : all.get(next).from()) {
            if (walk(all, next, start, taken)) {
                return true;
            }
        }
        return false;
    }

    /** All routes from a vertex on, each vertex once. */
    private boolean walk(List<Connection> all, int next, int at, BitSet taken) {
        int to = all.get(next).to();
        if (--steps <= 0 || !reaches(new int[] {at}, to, taken)) {
            return false;
        }
        EdgeCursor edges = fabric.edgesOut();
        List<int[]> steps = new ArrayList<>();
        edges.reset(at);
        while (edges.next()) {
            boolean through = edges.kind() == EdgeKind.PASS_THROUGH;
            steps.add(new int[] {edges.other(), through ? 1 : 0});
        }
        for (int[] step : steps) {
            int vertex = step[0];
            if (vertex == to) {
                if (connect(all, next + 1, taken)) {
                    return true;
                }
            } else if (!taken.get(vertex)) {
                BitSet more = (BitSet) taken.clone();
                more.set(vertex);
                if (step[1] == 1) {
                    SiteView site = fabric.site(fabric.siteOf(vertex));
                    more.set(site.firstPin(), site.firstPin() + site.pins().size());
                }
                if (walk(all, next, vertex, more)) {
                    return true;
                }
            }
        }
        return false;
    }

    private boolean reaches(int[] from, int to, BitSet taken) {
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
                if (!taken.get(edges.other()) && !seen.get(edges.other())) {
                    seen.set(edges.other());
                    queue.add(edges.other());
                }
            }
        }
        return false;
    }
}
