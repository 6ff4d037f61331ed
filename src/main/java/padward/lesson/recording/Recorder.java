package padward.lesson.recording;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import padward.fabric.Fabric;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.search.SearchListener;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

/** Records the steps of a search up to a limit. */
public final class Recorder implements SearchListener {
    /** Enough for any search that a person steps through; takes 11 MB. */
    public static final int DEFAULT_STEPS = 400_000;

    private final int maxSteps;
    private final Int2IntOpenHashMap lastReach = new Int2IntOpenHashMap();
    private final IntOpenHashSet refused = new IntOpenHashSet();
    private Recording.Columns columns = new Recording.Columns();
    private LowerBound bound = LowerBound.NONE;
    private int goal = Fabric.NOTHING;
    private int runs;
    private int steps;

    /**
     * @param maxSteps limit on the recorded steps; counting continues beyond it
     */
    public Recorder(int maxSteps) {
        this.maxSteps = maxSteps;
        lastReach.defaultReturnValue(Fabric.NOTHING);
    }

    @Override
    public void begun(SearchSources starts, int goalVertex, LowerBound lower) {
        columns = new Recording.Columns();
        lastReach.clear();
        refused.clear();
        steps = 0;
        runs++;
        goal = goalVertex;
        bound = lower;
        for (int i = 0; i < starts.size(); i++) {
            long ahead = lower.at(starts.vertex(i));
            if (ahead != CostModel.CLOSED) {
                reached(starts.vertex(i), Fabric.NOTHING, starts.cost(i), ahead);
            }
        }
    }

    @Override
    public void settled(int vertex, long cost) {
        if (isRoom()) {
            columns.addSettled(vertex, cost, bound.at(vertex));
        }
    }

    @Override
    public void reached(int vertex, int from, long cost, long ahead) {
        if (ahead != CostModel.CLOSED && isRoom()) {
            columns.addReached(vertex, from, cost, ahead, lastReach.get(vertex));
            lastReach.put(vertex, columns.size() - 1);
        }
    }

    @Override
    public void refused(int vertex, int from) {
        if (steps < maxSteps && refused.add(vertex) && isRoom()) {
            columns.addRefused(vertex, from);
        }
    }

    @Override
    public void ended(SearchOutcome outcome) {
        // The outcome comes through take(): only the caller knows that of a search of several runs.
    }

    private boolean isRoom() {
        return steps++ < maxSteps;
    }

    /**
     * Returns what was recorded since the last call of this method.
     *
     * @param outcome the result of the whole search, which may have had several runs
     */
    public Recording take(SearchOutcome outcome) {
        Recording result = new Recording(columns, goal, outcome, runs, steps);
        columns = new Recording.Columns();
        lastReach.clear();
        refused.clear();
        runs = 0;
        steps = 0;
        return result;
    }
}
