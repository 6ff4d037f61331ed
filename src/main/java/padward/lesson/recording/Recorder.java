package padward.lesson.recording;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import padward.fabric.Fabric;
import padward.route.cost.CostModel;
import padward.route.search.LowerBound;
import padward.route.search.SearchListener;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

/** Records what a watched search does, as far as memory was allowed. */
public final class Recorder implements SearchListener {
    /** Steps that are enough for any search that a person steps through: 11 MB. */
    public static final int USUAL_STEPS = 400_000;

    private final int mostSteps;
    private final Int2IntOpenHashMap lastReach = new Int2IntOpenHashMap();
    private final IntOpenHashSet refused = new IntOpenHashSet();
    private Recording.Columns columns = new Recording.Columns();
    private LowerBound bound = LowerBound.NONE;
    private int goal = Fabric.NOTHING;
    private int runs;
    private int steps;

    /**
     * @param mostSteps most steps to keep; the counts go on beyond
     */
    public Recorder(int mostSteps) {
        this.mostSteps = mostSteps;
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
        if (steps < mostSteps && refused.add(vertex) && isRoom()) {
            columns.addRefused(vertex, from);
        }
    }

    @Override
    public void ended(SearchOutcome outcome) {
        // The caller hands over the outcome, which a search made of several runs alone knows.
    }

    private boolean isRoom() {
        return steps++ < mostSteps;
    }

    /**
     * What was recorded since the last call of this method, with what came of it.
     *
     * @param outcome what the search, of which this saw one run or several, ended with
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
