package padward.lesson.recording;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.OptionalInt;
import java.util.function.IntPredicate;
import padward.fabric.Fabric;
import padward.route.search.SearchOutcome;

/**
 * One search, step by step, with its result. Immutable once recorded; 28 bytes per step. Beyond the
 * limit, only the first steps are kept; the counts cover all of them.
 */
public final class Recording {
    private static final int SETTLED = -2;
    private static final int REFUSED = -3;

    private final IntArrayList vertices;
    private final IntArrayList origins;
    private final LongArrayList costs;
    private final LongArrayList aheads;

    /** For each step the earlier step that reached the same vertex, or NOTHING. */
    private final IntArrayList earlier;

    private final int goal;
    private final SearchOutcome outcome;
    private final int runs;
    private final int stepCount;

    /** The columns of a recording that is still being written. */
    static final class Columns {
        final IntArrayList vertices = new IntArrayList();
        final IntArrayList origins = new IntArrayList();
        final LongArrayList costs = new LongArrayList();
        final LongArrayList aheads = new LongArrayList();
        final IntArrayList earlier = new IntArrayList();

        void addSettled(int vertex, long cost, long ahead) {
            add(vertex, SETTLED, cost, ahead, Fabric.NOTHING);
        }

        void addReached(int vertex, int from, long cost, long ahead, int before) {
            add(vertex, from, cost, ahead, before);
        }

        /** The column of costs holds the edge's origin here. */
        void addRefused(int vertex, int from) {
            add(vertex, REFUSED, from, 0, Fabric.NOTHING);
        }

        private void add(int vertex, int origin, long cost, long ahead, int before) {
            vertices.add(vertex);
            origins.add(origin);
            costs.add(cost);
            aheads.add(ahead);
            earlier.add(before);
        }

        int size() {
            return vertices.size();
        }
    }

    /**
     * @param columns the steps; kept without copying, must not be changed
     * @param runs number of runs until the search ended
     * @param stepCount steps of the last run, including those beyond the limit
     */
    Recording(Columns columns, int goal, SearchOutcome outcome, int runs, int stepCount) {
        this.vertices = columns.vertices;
        this.origins = columns.origins;
        this.costs = columns.costs;
        this.aheads = columns.aheads;
        this.earlier = columns.earlier;
        this.goal = goal;
        this.outcome = outcome;
        this.runs = runs;
        this.stepCount = stepCount;
    }

    /** Number of recorded steps. */
    public int size() {
        return vertices.size();
    }

    /** Steps of the last run, including those beyond the limit. */
    public int stepCount() {
        return stepCount;
    }

    /** Whether all steps were recorded. */
    public boolean isWhole() {
        return stepCount == size();
    }

    /** The step at a place, 0 being the first. */
    public SearchStep step(int place) {
        int vertex = vertices.getInt(place);
        int origin = origins.getInt(place);
        return switch (origin) {
            case SETTLED ->
                    new SearchStep.Settled(vertex, costs.getLong(place), aheads.getLong(place));
            case REFUSED -> new SearchStep.Refused(vertex, (int) costs.getLong(place));
            default ->
                    new SearchStep.Reached(
                            vertex, origin, costs.getLong(place), aheads.getLong(place));
        };
    }

    /**
     * The earlier step that reached the same vertex at a higher cost, or {@link Fabric#NOTHING}.
     */
    int earlierReach(int place) {
        return earlier.getInt(place);
    }

    /** The vertex that the search looked for. */
    public int goal() {
        return goal;
    }

    /** The result of the search. */
    public SearchOutcome outcome() {
        return outcome;
    }

    /**
     * Number of runs: a short first run may come before a longer one. The recorded steps are those
     * of the last run.
     */
    public int runs() {
        return runs;
    }

    /** The first step at or after a place whose vertex passes a test. O(steps). */
    public OptionalInt firstStep(int from, IntPredicate test) {
        for (int place = from; place < size(); place++) {
            if (test.test(vertices.getInt(place))) {
                return OptionalInt.of(place);
            }
        }
        return OptionalInt.empty();
    }
}
