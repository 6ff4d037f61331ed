package padward.unblock.why;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.BitSet;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.search.SearchSources;

/**
 * The vertices that every route from some starts to a goal passes: the dominators of the goal in
 * the sense of Lengauer and Tarjan, "A fast algorithm for finding dominators in a flowgraph"
 * (TOPLAS 1(1), 1979, 121-141). For a single goal no dominator tree is needed: along any one route,
 * a vertex is passed by all exactly if no detour from before it comes back behind it. This is the
 * idea of Cairo, Khan, Rizzi, Schmidt, Tomescu and Zirondelli, "A simplified algorithm computing
 * all s-t bridges and articulation points" (2020; cited from memory).
 *
 * <p>Detours are sought from both ends of the route by turns, from the starts along the edges and
 * from the goal against them, each keeping towards the other end. What lies before the first
 * chokepoint from one end is walked through; between the last that both have found, the first
 * detour that comes back behind them ends it. So a pad with one route in, on a fabric of any size,
 * takes about as long as finding a route. O(V + E) at worst.
 */
public final class Chokepoints {
    /** Vertices that one end goes on before it is the other's turn. */
    private static final int TURN = 64;

    private Chokepoints() {}

    /**
     * All vertices that every route passes, in the order of the route, the goal last, starts left
     * out.
     *
     * @param starts where routes may start; any of them will do
     * @param known a route that the model allows, from one of the starts to the goal
     * @param model which edges may be used; their costs do not matter
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static IntList along(
            Fabric fabric,
            SearchSources starts,
            IntList known,
            CostModel model,
            Progress progress) {
        return along(fabric, starts, known, model, TURN, progress);
    }

    /** The same, with turns of another length. */
    public static IntList along(
            Fabric fabric,
            SearchSources starts,
            IntList known,
            CostModel model,
            int turn,
            Progress progress) {
        IntList route = fromItsLastStart(known, starts);
        int goal = route.size() - 1;
        if (goal == 0) {
            return new IntArrayList();
        }
        Front front = new Front(fabric, model, true, route);
        Front back = new Front(fabric, model, false, reversed(route));
        for (int i = 0; i < starts.size(); i++) {
            front.begin(starts.vertex(i));
            back.endAt(starts.vertex(i));
        }
        back.begin(route.getInt(goal));
        // Places on the route: front has decided those up to its root, and knows of a detour from
        // there to its farthest; back the same, counted from the goal.
        while (front.farthest + back.farthest <= goal && front.root + back.root < goal - 1) {
            progress.check();
            front.goOn(turn);
            back.goOn(turn);
        }
        IntList result = new IntArrayList();
        for (int place = 1; place <= goal; place++) {
            if (front.isPassed.get(place) || back.isPassed.get(goal - place) || place == goal) {
                result.add(route.getInt(place));
            }
        }
        return result;
    }

    private static IntList fromItsLastStart(IntList route, SearchSources starts) {
        int last = 0;
        for (int i = 0; i < starts.size(); i++) {
            last = Math.max(last, route.lastIndexOf(starts.vertex(i)));
        }
        return route.subList(last, route.size());
    }

    private static IntList reversed(IntList route) {
        IntList result = new IntArrayList(route.size());
        for (int i = route.size() - 1; i >= 0; i--) {
            result.add(route.getInt(i));
        }
        return result;
    }

    /** The walk from one end of the route. Places are counted from that end. */
    private static final class Front {
        private final Fabric fabric;
        private final EdgeCursor edges;
        private final CostModel model;
        private final boolean along;
        private final IntList route;
        private final int last;
        private final Int2IntOpenHashMap placeOf = new Int2IntOpenHashMap();
        private final BitSet seen;
        private final Nearest open;

        /** Places that every route passes. */
        final BitSet isPassed = new BitSet();

        /** Up to here it is decided for each place whether every route passes it. */
        int root;

        /** The farthest place that a detour from the root or before it comes back to. */
        int farthest;

        /**
         * @param along whether it goes along the edges or against them
         * @param route the route from this end to the other
         */
        Front(Fabric fabric, CostModel model, boolean along, IntList route) {
            this.fabric = fabric;
            this.edges = along ? fabric.edgesOut() : fabric.edgesIn();
            this.model = model;
            this.along = along;
            this.route = route;
            this.last = route.size() - 1;
            this.seen = new BitSet(fabric.vertexCount());
            this.open = new Nearest(fabric, fabric.tile(route.getInt(last)));
            for (int i = 0; i <= last; i++) {
                placeOf.put(route.getInt(i), i);
                seen.set(route.getInt(i));
            }
        }

        /** One vertex more from which this end sets out. */
        void begin(int vertex) {
            seen.set(vertex);
            open.add(vertex);
        }

        /** One vertex more at which the other end sets out. */
        void endAt(int vertex) {
            placeOf.put(vertex, last);
            seen.set(vertex);
        }

        /** Goes on for so many vertices, or to the next place. */
        void goOn(int turn) {
            for (int i = 0; i < turn && !open.isEmpty(); i++) {
                follow(open.take());
            }
            if (open.isEmpty() && root < last) {
                root++;
                if (farthest == root) {
                    isPassed.set(root);
                }
                open.add(route.getInt(root));
            }
        }

        private void follow(int vertex) {
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                int from = along ? vertex : next;
                int to = along ? next : vertex;
                if (model.cost(from, to, edges.delayPs(Corner.FAST)) != CostModel.CLOSED) {
                    reach(next);
                }
            }
        }

        private void reach(int vertex) {
            if (!seen.get(vertex)) {
                seen.set(vertex);
                open.add(vertex);
            } else if (placeOf.containsKey(vertex)) {
                farthest = Math.max(farthest, placeOf.get(vertex));
            }
        }
    }

    /** Vertices of which the one nearest to a tile, as rows and columns go, is taken first. */
    private static final class Nearest {
        private final Fabric fabric;
        private final int column;
        private final int row;
        private final IntArrayList[] byDistance;
        private int least;
        private int size;

        Nearest(Fabric fabric, int tile) {
            this.fabric = fabric;
            this.column = fabric.column(tile);
            this.row = fabric.row(tile);
            this.byDistance = new IntArrayList[fabric.columns() + fabric.rows()];
        }

        boolean isEmpty() {
            return size == 0;
        }

        void add(int vertex) {
            int tile = fabric.headTile(vertex);
            int distance =
                    Math.abs(fabric.column(tile) - column) + Math.abs(fabric.row(tile) - row);
            if (byDistance[distance] == null) {
                byDistance[distance] = new IntArrayList();
            }
            byDistance[distance].add(vertex);
            least = size == 0 ? distance : Math.min(least, distance);
            size++;
        }

        int take() {
            while (byDistance[least] == null || byDistance[least].isEmpty()) {
                least++;
            }
            size--;
            return byDistance[least].popInt();
        }
    }
}
