package padward.route.search;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.bound.LowerBoundTable;
import padward.route.cost.CostModel;
import padward.route.cost.SmallCost;
import padward.route.queue.BucketQueue;

/**
 * A* and Dijkstra's search in costs of 31 bits over a bucket queue. Subclasses know how to get at a
 * vertex's edges. No predecessors are kept: a route is read backwards from its goal, over edges
 * whose cost is just the difference of their ends'.
 */
abstract class IntSearch extends SearchEngine {
    /** What a search ended with. */
    enum End {
        FOUND,
        UNREACHABLE,
        CANCELLED,
        /** As many vertices are settled as the limit allows. */
        LIMIT,
        /** Costs grew beyond 31 bits; the general search has to answer. */
        TOO_EXPENSIVE
    }

    /** In place of a number of settled vertices: there is no sharper bound. */
    static final int NEVER = Integer.MAX_VALUE;

    /** One for so many of these may be enough, where the bound proves too low. */
    private static final int EARLY_SHARE = 8;

    private static final int POPS_BETWEEN_CHECKS = 4096;
    private static final SearchSources NO_SOURCES = new SearchSources(new int[0], new long[0]);

    final SearchState state;
    private final EdgeCursor into;
    private final Int2IntOpenHashMap startCosts = new Int2IntOpenHashMap();

    SmallCost costs;
    Corner corner;

    /** The bound on delay when it is a table, else {@link LowerBoundTable.Aim#NONE}. */
    LowerBoundTable.Aim table = LowerBoundTable.Aim.NONE;

    /** The bound on delay when it is not a table, else {@link LowerBound#NONE}. */
    private LowerBound bound = LowerBound.NONE;

    /** The bound on stretches, or {@link PerimeterBound#NONE}. */
    PerimeterBound perimeter = PerimeterBound.NONE;

    int settled;

    /** Whether a sharper bound is being worked out. */
    private boolean sharpening;

    /** Whether it is of use now. */
    boolean sharp;

    /** After how many settled vertices to see to a sharper bound. */
    private int sharpenAt;

    /** The least key of all starts: what the route costs if the bound is right. */
    private int firstKey;

    private SearchSources starts = NO_SOURCES;
    private int goal;

    /** Whether a vertex was left out because what it costs is beyond the numbers, not for good. */
    private boolean leftOut;

    /** After how many settled vertices a sharper bound pays in any case. */
    private final int sharpenAfter;

    IntSearch(Fabric fabric, SearchListener listener, int sharpenAfter) {
        super(fabric, listener);
        this.sharpenAfter = sharpenAfter;
        this.state = new SearchState(fabric.vertexCount());
        this.into = fabric.edgesIn();
        startCosts.defaultReturnValue(Fabric.NOTHING);
    }

    /**
     * Whether this search can take on a question.
     *
     * @throws CancellationException when {@code progress} says so
     */
    boolean canAnswer(SmallCost small, SearchSources starts, Progress progress) {
        for (int i = 0; i < starts.size(); i++) {
            if (!small.fits(starts.cost(i))) {
                return false;
            }
        }
        return !small.countsStretches()
                || FabricIndex.of(fabric).longestEdgePs(progress) <= SmallCost.STRETCH / 512;
    }

    End run(
            SearchSources from,
            int to,
            Corner at,
            SmallCost small,
            LowerBound lower,
            int mostSettled,
            Progress progress) {
        starts = from;
        goal = to;
        corner = at;
        costs = small;
        leftOut = false;
        sharp = false;
        sharpening = false;
        setBound(lower);
        settled = 0;
        state.begin(small.closed());
        boolean whole = goal == Fabric.NOTHING && mostSettled == Integer.MAX_VALUE;
        if (whole && lower == LowerBound.NONE) {
            setStartCosts();
            End end = sweepAll(starts.toVertices(), starts.toIntCosts(), progress);
            if (end != End.TOO_EXPENSIVE) {
                return end;
            }
            state.begin(small.closed());
            settled = 0;
        }
        queueStarts();
        prepare();
        return goOn(mostSettled, progress);
    }

    /**
     * Goes on with a run that ended with {@link End#LIMIT}, until so many vertices are settled in
     * all. What is settled, and in which order, is the same as without the stop.
     */
    final End goOn(int mostSettled, Progress progress) {
        try {
            return loop(mostSettled, progress);
        } catch (CancellationException stopped) {
            return End.CANCELLED;
        }
    }

    private void setBound(LowerBound lower) {
        perimeter = lower instanceof PerimeterBound p ? p : PerimeterBound.NONE;
        LowerBound delay = perimeter == PerimeterBound.NONE ? lower : perimeter.delay();
        table = delay instanceof LowerBoundTable.Aim aim ? aim : LowerBoundTable.Aim.NONE;
        bound = table == LowerBoundTable.Aim.NONE ? delay : LowerBound.NONE;
    }

    /**
     * A whole sweep by a loop of the subclass's own. The sources' costs are set before; it counts
     * what it settles.
     *
     * @return {@link End#TOO_EXPENSIVE} when there is none for these costs
     */
    End sweepAll(int[] starts, int[] startCosts, Progress progress) {
        return End.TOO_EXPENSIVE;
    }

    private void setStartCosts() {
        startCosts.clear();
        for (int i = 0; i < starts.size(); i++) {
            int vertex = starts.vertex(i);
            int cost = (int) starts.cost(i);
            state.cost[vertex] = cost;
            state.touch(vertex);
            startCosts.put(vertex, cost);
        }
    }

    private void queueStarts() {
        setStartCosts();
        int least = Integer.MAX_VALUE;
        for (int i = 0; i < starts.size(); i++) {
            int ahead = aheadOfStart(i);
            if (ahead != SmallCost.CLOSED) {
                least = Math.min(least, (int) starts.cost(i) + ahead);
            }
        }
        firstKey = least == Integer.MAX_VALUE ? 0 : least;
        state.queue.clear(firstKey);
        boolean never = sharpenAfter == NEVER || goal == Fabric.NOTHING;
        sharpenAt = never ? NEVER : Math.max(1, sharpenAfter / EARLY_SHARE);
        for (int i = 0; i < starts.size(); i++) {
            int vertex = starts.vertex(i);
            int ahead = aheadOfStart(i);
            if (ahead != SmallCost.CLOSED) {
                // Closed starts are queued as their complement: they are left, never entered.
                int item = state.isDone(vertex) ? ~vertex : vertex;
                state.queue.push(item, (int) starts.cost(i) + ahead);
            }
        }
    }

    private int aheadOfStart(int start) {
        int ahead = ahead(starts.vertex(start));
        if (ahead != SmallCost.CLOSED && (int) starts.cost(start) + ahead < 0) {
            leftOut = true;
            return SmallCost.CLOSED;
        }
        return ahead;
    }

    /** The lower bound at a vertex in small numbers, {@link SmallCost#CLOSED} for no route. */
    final int ahead(int vertex) {
        long delay = 0;
        if (table != LowerBoundTable.Aim.NONE) {
            delay = table.at(vertex);
        } else if (bound != LowerBound.NONE) {
            delay = bound.at(vertex);
        }
        if (delay > SmallCost.LARGEST) {
            leftOut |= delay != CostModel.CLOSED;
            return SmallCost.CLOSED;
        }
        return perimeter == PerimeterBound.NONE
                ? (int) delay
                : (int) delay + stretchesAhead(vertex);
    }

    /** The bound on stretches, in small numbers; cut off where the fast searches end. */
    final int stretchesAhead(int vertex) {
        return Math.min(perimeter.levelAt(vertex), SmallCost.MOST_STRETCHES) * SmallCost.STRETCH;
    }

    private End loop(int mostSettled, Progress progress) {
        BucketQueue queue = state.queue;
        int untilCheck = POPS_BETWEEN_CHECKS;
        while (!queue.isEmpty()) {
            if (settled >= mostSettled) {
                return End.LIMIT;
            }
            int item = queue.pop();
            int vertex = item;
            if (item < 0) {
                vertex = ~item;
            } else if (state.isDone(item)) {
                continue;
            } else if (sharp && isLater(item, progress)) {
                continue;
            }
            settled++;
            if (vertex == goal) {
                return state.cost[goal] >= SmallCost.LARGEST ? End.TOO_EXPENSIVE : End.FOUND;
            }
            if (--untilCheck == 0) {
                untilCheck = POPS_BETWEEN_CHECKS;
                progress.report(-1, "searching, " + settled + " vertices settled");
                if (progress.cancelled()) {
                    return End.CANCELLED;
                }
            }
            if (state.cost[vertex] >= SmallCost.LARGEST) {
                return End.TOO_EXPENSIVE;
            }
            if (settled >= sharpenAt) {
                sharpen(progress);
            }
            state.setDone(vertex);
            settle(vertex);
        }
        return leftOut ? End.TOO_EXPENSIVE : End.UNREACHABLE;
    }

    /**
     * Begins with a sharper bound when that pays, and then goes on with it until it is of use. As
     * long as nothing costs more with the bound than the first start does, the goal may be next.
     */
    private void sharpen(Progress progress) {
        if (!sharpening) {
            boolean isTooLow = state.queue.current() > firstKey;
            if (!isTooLow && settled < sharpenAfter) {
                sharpenAt = (int) Math.min(sharpenAfter, 2L * sharpenAt);
                return;
            }
            sharpening = beginSharpening(starts, goal, progress);
        }
        sharp = sharpening && isSharper(progress);
        if (sharp || !sharpening) {
            sharpenAt = NEVER;
        }
    }

    /**
     * Whether a vertex that came out of the queue has to wait, as a sharper bound than that with
     * which it was queued says; it is then queued again, unless no route leads on.
     */
    private boolean isLater(int vertex, Progress progress) {
        int cost = state.cost[vertex];
        int now = state.queue.current();
        int ahead = sharpened(vertex, now - cost, progress);
        if (ahead == SmallCost.CLOSED) {
            return true;
        }
        if (cost + ahead < 0) {
            leftOut = true;
            return true;
        }
        if (cost + ahead > now) {
            state.queue.push(vertex, cost + ahead);
            return true;
        }
        return false;
    }

    /**
     * Called once in a run that has settled much: whether there is a sharper bound to be worked
     * out. It must be consistent, and may grow during a run: what is settled by any of them has its
     * least cost.
     *
     * @throws CancellationException when {@code progress} says so
     */
    boolean beginSharpening(SearchSources sources, int target, Progress progress) {
        return false;
    }

    /**
     * Works on the sharper bound, for a few times as long as a vertex takes.
     *
     * @return whether it is of use from now on
     * @throws CancellationException when {@code progress} says so
     */
    boolean isSharper(Progress progress) {
        return false;
    }

    /**
     * The sharper bound at a vertex, {@link SmallCost#CLOSED} when no route leads on; more than
     * {@code enough} is not needed.
     *
     * @throws CancellationException when {@code progress} says so
     */
    int sharpened(int vertex, int enough, Progress progress) {
        return 0;
    }

    /** Called before each run, when all that it depends on has been set. */
    void prepare() {}

    @Override
    final boolean isClosed(int from, int to, EdgeCursor edge) {
        return costs.closed().get(to);
    }

    @Override
    final long boundAt(int vertex) {
        return costs.wide(ahead(vertex));
    }

    /** Gives a vertex a lower cost than it has, unless its bound says that no route leads on. */
    final void improve(int vertex, int cost, int ahead) {
        if (ahead == SmallCost.CLOSED) {
            return;
        }
        if (cost + ahead < 0) {
            // Beyond 31 bits.
            leftOut = true;
            return;
        }
        if (state.cost[vertex] == SearchState.UNSEEN) {
            state.touch(vertex);
        }
        state.cost[vertex] = cost;
        state.queue.push(vertex, cost + ahead);
    }

    final int settled() {
        return settled;
    }

    @Override
    long bytes() {
        return state.bytes();
    }

    @Override
    final long cost(int vertex) {
        int cost = state.cost[vertex];
        return cost == SearchState.UNSEEN ? CostModel.CLOSED : costs.wide(cost);
    }

    /**
     * The route to a vertex that the last search settled. Walks back over tight edges: every vertex
     * with a cost got it over such an edge from a settled one. Where edges without delay form
     * circles the walk may have to turn back, so it remembers where it was.
     */
    @Override
    final VertexPath pathTo(int goal) {
        IntArrayList route = new IntArrayList(new int[] {goal});
        IntOpenHashSet left = new IntOpenHashSet(new int[] {goal});
        while (true) {
            int vertex = route.getInt(route.size() - 1);
            if (startCosts.get(vertex) == state.cost[vertex]) {
                break;
            }
            int before = tightBefore(vertex, left);
            if (before == Fabric.NOTHING) {
                route.popInt();
            } else {
                route.add(before);
                left.add(before);
            }
        }
        return VertexPath.ofReversed(route);
    }

    /** Of several the one that is not used, so that a used stretch is left as soon as possible. */
    private int tightBefore(int vertex, IntOpenHashSet left) {
        int cost = state.cost[vertex];
        int found = Fabric.NOTHING;
        into.reset(vertex);
        while (into.next()) {
            int other = into.other();
            int before = state.cost[other];
            if (before <= cost
                    && before + costs.step(other, vertex, into.delayPs(corner)) == cost
                    && !left.contains(other)) {
                found = other;
                if (!costs.isUsed(other)) {
                    return found;
                }
            }
        }
        return found;
    }
}
