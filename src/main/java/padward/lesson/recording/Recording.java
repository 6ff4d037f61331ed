package padward.lesson.recording;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.OptionalInt;
import java.util.function.IntPredicate;
import padward.fabric.Fabric;
import padward.route.search.SearchOutcome;

/**
 * What one search did, step by step, and what came of it. Immutable once it is recorded; 28 bytes a
 * step. Of a search with more steps than were allowed the first are kept, and the counts of all.
 */
public final class Recording {
    private static final int SETTLED = -2;
    private static final int REFUSED = -3;

    private final IntArrayList vertices;
    private final IntArrayList origins;
    private final LongArrayList costs;
    private final LongArrayList aheads;

    /** For each step the one before it that reached the same vertex, or NOTHING. */
    private final IntArrayList earlier;

    private final int goal;
    private final SearchOutcome outcome;
    private final int runs;
    private final int stepsInAll;

    /** The columns of a recording that is still being made. */
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

        /** The cost's place holds the edge's origin. */
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
     * @param columns the steps; kept, not copied, and not to be changed
     * @param runs how often the search set out before it could end
     * @param stepsInAll steps of the last run, those that were not kept included
     */
    Recording(Columns columns, int goal, SearchOutcome outcome, int runs, int stepsInAll) {
        this.vertices = columns.vertices;
        this.origins = columns.origins;
        this.costs = columns.costs;
        this.aheads = columns.aheads;
        this.earlier = columns.earlier;
        this.goal = goal;
        this.outcome = outcome;
        this.runs = runs;
        this.stepsInAll = stepsInAll;
    }

    /** Number of steps that are kept. */
    public int size() {
        return vertices.size();
    }

    /** Steps of the search, those that were not kept included. */
    public int stepsInAll() {
        return stepsInAll;
    }

    /** Whether all steps are kept. */
    public boolean isWhole() {
        return stepsInAll == size();
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

    /** The earlier step that reached the same vertex at more, or {@link Fabric#NOTHING}. */
    int earlierReach(int place) {
        return earlier.getInt(place);
    }

    /** The vertex that was searched for. */
    public int goal() {
        return goal;
    }

    /** What the search ended with. */
    public SearchOutcome outcome() {
        return outcome;
    }

    /**
     * How often the search set out: a first run that is cut short comes before a longer one. The
     * steps are those of the last.
     */
    public int runs() {
        return runs;
    }

    /** The first step from a place on about a vertex that passes a test. O(steps). */
    public OptionalInt firstStep(int from, IntPredicate test) {
        for (int place = from; place < size(); place++) {
            if (test.test(vertices.getInt(place))) {
                return OptionalInt.of(place);
            }
        }
        return OptionalInt.empty();
    }
}
