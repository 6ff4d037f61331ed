package padward.route.search;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntHeapPriorityQueue;
import it.unimi.dsi.fastutil.longs.Long2IntOpenHashMap;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import it.unimi.dsi.fastutil.longs.LongHeapPriorityQueue;
import java.util.BitSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/**
 * Finds a route whose delay is in a window at both corners: not the shortest delay, but one that
 * matches others. Finding one without loops of exactly a given length is NP-hard (longest path is a
 * special case). This is a label-setting search of our own, which finds one fast where there are
 * many, and proves that there is none where few are possible.
 *
 * <p>A label is a vertex with the delays at both corners with which it is reached, and the label
 * before. The least delay from a vertex to the goal is known exactly for each corner, from a search
 * back from the goal; a label that could only end beyond the window is dropped. Labels that are
 * late enough already go first, then those that lack the least delay; a route may not enter one of
 * its own vertices again. Of labels with equal vertex and delays a few are kept.
 *
 * <p>When that finds nothing, routes may cross themselves: then one label for each vertex and pair
 * of delays stands for all, and if no label at the goal is in the window, no route is, whether it
 * crosses itself or not. That is the proof. Otherwise, or at the limit, the outcome is {@link
 * Kind#NOT_FOUND}, which proves nothing.
 */
public final class DelayWindowSearch {
    /** How a search ended. */
    public enum Kind {
        /** There is a route. */
        FOUND,
        /** There is none, which is proven. */
        PROVEN_NONE,
        /** None was found, which proves nothing. */
        NOT_FOUND
    }

    /**
     * How a search ended, and the route.
     *
     * @param kind how
     * @param path the route, from one of the starts to the goal; the goal alone when not found
     * @param delay its delay, the start's included; zero when not found
     */
    public record Outcome(Kind kind, VertexPath path, Delay delay) {}

    /**
     * The delays that are accepted.
     *
     * @param least least delay at each corner
     * @param most most delay at each corner
     */
    public record Window(Delay least, Delay most) {
        boolean contains(int fastPs, int slowPs) {
            return fastPs >= least.fastPs()
                    && fastPs <= most.fastPs()
                    && slowPs >= least.slowPs()
                    && slowPs <= most.slowPs();
        }
    }

    /** Labels kept with the same vertex and delays. */
    private static final int ALIKE = 3;

    private static final int CHECK_EVERY = 1024;

    /** Bits of a label's key for the delays: a quarter of a microsecond fast, half of one slow. */
    private static final int FAST_BITS = 18;

    private static final int SLOW_BITS = 19;

    /** The largest number of a vertex that fits beside them. */
    private static final int MOST_NUMBERED = (1 << Long.SIZE - FAST_BITS - SLOW_BITS) - 1;

    private final Fabric fabric;
    private final BitSet closed;
    private final int goal;
    private final Window window;
    private final int mostLabels;
    private final Progress progress;
    private final Int2IntOpenHashMap restFast;
    private final Int2IntOpenHashMap restSlow;
    private final EdgeCursor edges;

    private IntArrayList vertices = new IntArrayList();
    private IntArrayList fast = new IntArrayList();
    private IntArrayList slow = new IntArrayList();
    private IntArrayList before = new IntArrayList();
    private LongArrayList urgency = new LongArrayList();
    private Long2IntOpenHashMap seen = new Long2IntOpenHashMap();

    /** Vertices that labels have, numbered as they come, so that the numbers fit into keys. */
    private final Int2IntOpenHashMap numbers = new Int2IntOpenHashMap();

    private IntHeapPriorityQueue open = new IntHeapPriorityQueue(this::lateFirst);
    private boolean leftOut;
    private boolean atLimit;

    private DelayWindowSearch(
            Fabric fabric,
            BitSet closed,
            int goal,
            Window window,
            int mostLabels,
            Progress progress) {
        this.fabric = fabric;
        this.closed = closed;
        this.goal = goal;
        this.window = window;
        this.mostLabels = mostLabels;
        this.progress = progress;
        this.edges = fabric.edgesOut();
        this.restFast = rest(Corner.FAST, window.most().fastPs());
        this.restSlow = rest(Corner.SLOW, window.most().slowPs());
    }

    /**
     * Searches.
     *
     * @param fastStarts where a route may begin, with the fast delays there
     * @param slowStarts the same starts with the slow delays
     * @param goal where it ends
     * @param closed vertices that it may not enter, the goal aside
     * @param mostLabels how many labels each of the two passes may make
     * @throws CancellationException when {@code progress} says so
     */
    public static Outcome run(
            Fabric fabric,
            SearchSources fastStarts,
            SearchSources slowStarts,
            int goal,
            BitSet closed,
            Window window,
            int mostLabels,
            Progress progress) {
        Delay most = window.most();
        if (most.fastPs() >= 1 << FAST_BITS || most.slowPs() >= 1 << SLOW_BITS) {
            return nothing(Kind.NOT_FOUND, goal);
        }
        DelayWindowSearch search =
                new DelayWindowSearch(fabric, closed, goal, window, mostLabels, progress);
        int found = search.pass(fastStarts, slowStarts, true);
        if (found != Fabric.NOTHING) {
            return search.outcome(found);
        }
        boolean all = !search.leftOut && !search.atLimit;
        if (!all) {
            search.clear();
            found = search.pass(fastStarts, slowStarts, false);
            all = found == Fabric.NOTHING && !search.atLimit;
        }
        return nothing(all ? Kind.PROVEN_NONE : Kind.NOT_FOUND, goal);
    }

    private static Outcome nothing(Kind kind, int goal) {
        return new Outcome(kind, new VertexPath(new int[] {goal}), Delay.ZERO);
    }

    private void clear() {
        vertices = new IntArrayList();
        fast = new IntArrayList();
        slow = new IntArrayList();
        before = new IntArrayList();
        urgency = new LongArrayList();
        seen = new Long2IntOpenHashMap();
        open = new IntHeapPriorityQueue(this::lateFirst);
        leftOut = false;
        atLimit = false;
    }

    private Outcome outcome(int label) {
        IntArrayList reversed = new IntArrayList();
        for (int at = label; at != Fabric.NOTHING; at = before.getInt(at)) {
            reversed.add(vertices.getInt(at));
        }
        int[] path = new int[reversed.size()];
        for (int i = 0; i < path.length; i++) {
            path[i] = reversed.getInt(path.length - 1 - i);
        }
        return new Outcome(
                Kind.FOUND,
                new VertexPath(path),
                new Delay(fast.getInt(label), slow.getInt(label)));
    }

    /** A label at the goal in the window, or {@link Fabric#NOTHING}. */
    private int pass(SearchSources fastStarts, SearchSources slowStarts, boolean simple) {
        for (int i = 0; i < fastStarts.size(); i++) {
            add(
                    fastStarts.vertex(i),
                    (int) fastStarts.cost(i),
                    (int) slowStarts.cost(i),
                    Fabric.NOTHING,
                    simple);
        }
        int untilCheck = CHECK_EVERY;
        while (!open.isEmpty()) {
            if (--untilCheck == 0) {
                untilCheck = CHECK_EVERY;
                progress.check();
            }
            if (vertices.size() > mostLabels) {
                atLimit = true;
                return Fabric.NOTHING;
            }
            int label = open.dequeueInt();
            int vertex = vertices.getInt(label);
            if (vertex == goal) {
                if (window.contains(fast.getInt(label), slow.getInt(label))) {
                    return label;
                }
                continue;
            }
            edges.reset(vertex);
            while (edges.next()) {
                int next = edges.other();
                if (closed.get(next) && next != goal) {
                    continue;
                }
                int fastPs = fast.getInt(label) + edges.delayPs(Corner.FAST);
                int slowPs = slow.getInt(label) + edges.delayPs(Corner.SLOW);
                if (simple && isOn(label, next)) {
                    continue;
                }
                add(next, fastPs, slowPs, label, simple);
            }
        }
        return Fabric.NOTHING;
    }

    private boolean isOn(int label, int vertex) {
        for (int at = label; at != Fabric.NOTHING; at = before.getInt(at)) {
            if (vertices.getInt(at) == vertex) {
                return true;
            }
        }
        return false;
    }

    private void add(int vertex, int fastPs, int slowPs, int parent, boolean simple) {
        if (!restFast.containsKey(vertex) || !restSlow.containsKey(vertex)) {
            return;
        }
        boolean tooLate =
                fastPs + restFast.get(vertex) > window.most().fastPs()
                        || slowPs + restSlow.get(vertex) > window.most().slowPs();
        if (tooLate) {
            return;
        }
        int number = numbers.getOrDefault(vertex, numbers.size());
        numbers.put(vertex, number);
        if (number > MOST_NUMBERED) {
            atLimit = true;
            return;
        }
        int alike = seen.addTo(key(number, fastPs, slowPs), 1);
        if (alike >= (simple ? ALIKE : 1)) {
            leftOut = true;
            return;
        }
        vertices.add(vertex);
        fast.add(fastPs);
        slow.add(slowPs);
        before.add(parent);
        urgency.add((long) lacking(vertex, fastPs, slowPs) << 32 | restSlow.get(vertex));
        open.enqueue(vertices.size() - 1);
    }

    private static long key(int number, int fastPs, int slowPs) {
        return ((long) number << FAST_BITS | fastPs) << SLOW_BITS | slowPs;
    }

    /**
     * How much delay a route lacks if it goes on to the goal with the least delay: 0 when it is
     * late enough.
     */
    private int lacking(int vertex, int fastPs, int slowPs) {
        int inFast = window.least().fastPs() - fastPs - restFast.get(vertex);
        int inSlow = window.least().slowPs() - slowPs - restSlow.get(vertex);
        return Math.max(0, Math.max(inFast, inSlow));
    }

    private int lateFirst(int one, int other) {
        int byUrgency = Long.compare(urgency.getLong(one), urgency.getLong(other));
        return byUrgency != 0 ? byUrgency : Integer.compare(other, one);
    }

    /**
     * The least delay from each vertex to the goal over what is open, where it is within a limit:
     * Dijkstra's search backwards.
     */
    private Int2IntOpenHashMap rest(Corner corner, int limitPs) {
        Int2IntOpenHashMap settled = new Int2IntOpenHashMap();
        EdgeCursor into = fabric.edgesIn();
        // Delay and vertex as one number each.
        LongHeapPriorityQueue queue = new LongHeapPriorityQueue();
        queue.enqueue(goal);
        while (!queue.isEmpty()) {
            long entry = queue.dequeueLong();
            int vertex = (int) entry;
            int ps = (int) (entry >>> 32);
            if (settled.containsKey(vertex)) {
                continue;
            }
            settled.put(vertex, ps);
            into.reset(vertex);
            while (into.next()) {
                int earlier = into.other();
                int reached = ps + into.delayPs(corner);
                if (reached > limitPs) {
                    continue;
                }
                // Starts lie on closed vertices: they are reached, but not gone through.
                if (closed.get(earlier)) {
                    settled.merge(earlier, reached, Math::min);
                } else if (!settled.containsKey(earlier)) {
                    queue.enqueue((long) reached << 32 | earlier);
                }
            }
        }
        return settled;
    }
}
