package padward.route.search;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.ObstacleCost;

/**
 * How many used stretches a route to a goal must cross at least, found by a search backwards from
 * the goal: first over everything that leads there without a price, then at the price of one
 * stretch, and so on, until a given number of vertices has been seen. Most blocked pads are closed
 * off by what stands right before them, and then this finds at once what a forward search would
 * find last.
 *
 * <p>The levels are those of a breadth-first search with steps of 0 and 1 (Dial's search with two
 * buckets). Let L be the level at which it ended. A vertex that was finished has its exact level;
 * every other one has level L or more, and counts as L. This is consistent: for a step from u to v
 * at price p, level(u) <= p + level(v) holds for exact levels; if v counts as L, then u counts as
 * no more than L; if u counts as L and v is finished, then u's true level is L or more, and at most
 * p + level(v).
 *
 * @see ObstacleCost
 */
public final class PerimeterBound implements LowerBound {
    private static final int FINISHED = 1 << 30;
    private static final int SEEN_BETWEEN_CHECKS = 128;

    /** Zero everywhere; the object for "no perimeter". */
    static final PerimeterBound NONE = new PerimeterBound(LowerBound.NONE);

    private final Int2IntOpenHashMap levels = new Int2IntOpenHashMap();
    private final LowerBound delay;

    /** What waits at the present level, and at the next. */
    private IntArrayList now = new IntArrayList();

    private IntArrayList next = new IntArrayList();
    private int seen;

    /** The present level, which every vertex that is not finished has at the least. */
    private int outside;

    /** Whether everything that leads to the goal has been seen, so that the rest never does. */
    private boolean complete;

    private PerimeterBound(LowerBound delay) {
        this.delay = delay;
        levels.defaultReturnValue(Fabric.NOTHING);
    }

    /**
     * Before a search backwards from a goal, of which nothing is known yet.
     *
     * @param delay a lower bound on delay, which is added
     */
    static PerimeterBound before(int goal, LowerBound delay) {
        PerimeterBound perimeter = new PerimeterBound(delay);
        perimeter.levels.put(goal, 0);
        perimeter.now.add(goal);
        return perimeter;
    }

    /**
     * Searches on, as if it had not stopped before.
     *
     * @param model a model with a price for obstacles, or one without: then there is only level 0.
     *     The same each time
     * @param most most vertices to see in all
     * @param progress asked now and then whether to stop; what was seen by then is used
     */
    void grow(Fabric fabric, CostModel model, int most, Progress progress) {
        EdgeCursor into = fabric.edgesIn();
        while (!complete) {
            while (!now.isEmpty()) {
                int vertex = now.popInt();
                if (levels.get(vertex) != outside) {
                    continue;
                }
                boolean stop = seen % SEEN_BETWEEN_CHECKS == 0 && progress.cancelled();
                if (seen >= most || stop) {
                    now.add(vertex);
                    return;
                }
                seen++;
                levels.put(vertex, outside | FINISHED);
                into.reset(vertex);
                while (into.next()) {
                    int other = into.other();
                    int before = levels.get(other);
                    boolean isBest = before != Fabric.NOTHING && (before & ~FINISHED) <= outside;
                    if (isBest) {
                        continue;
                    }
                    long cost = model.cost(other, vertex, into.delayPs(Corner.FAST));
                    if (cost == CostModel.CLOSED) {
                        continue;
                    }
                    int reached = outside + (cost >= ObstacleCost.PRICE ? 1 : 0);
                    if (before == Fabric.NOTHING || reached < before) {
                        levels.put(other, reached);
                        (reached == outside ? now : next).add(other);
                    }
                }
            }
            complete = next.isEmpty();
            outside++;
            IntArrayList swap = now;
            now = next;
            next = swap;
        }
    }

    /** Whether it is certain that no source leads to the goal. */
    public boolean excludes(SearchSources starts) {
        if (!complete) {
            return false;
        }
        for (int i = 0; i < starts.size(); i++) {
            if (levels.containsKey(starts.vertex(i))) {
                return false;
            }
        }
        return true;
    }

    /** Least number of stretches from a vertex on. */
    int levelAt(int vertex) {
        int level = levels.get(vertex);
        return (level & FINISHED) != 0 && level != Fabric.NOTHING ? level & ~FINISHED : outside;
    }

    /** The bound on delay. */
    LowerBound delay() {
        return delay;
    }

    @Override
    public long at(int vertex) {
        long delayPs = delay.at(vertex);
        return delayPs == CostModel.CLOSED
                ? CostModel.CLOSED
                : levelAt(vertex) * ObstacleCost.PRICE + delayPs;
    }
}
