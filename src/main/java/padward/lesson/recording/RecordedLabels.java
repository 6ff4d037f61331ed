package padward.lesson.recording;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.Occupant;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;
import padward.unblock.why.FewestObstaclesSearch;
import padward.unblock.why.LabelListener;
import padward.unblock.why.SearchLimits;

/**
 * The recorded search for the fewest obstacles of a blocked question: labels that carry their sets
 * of obstacles. Immutable; beyond the limit, only the first steps are kept.
 */
public final class RecordedLabels {
    private final Design design;
    private final IntArrayList vertices = new IntArrayList();
    private final List<int[]> sets = new ArrayList<>();
    private final List<LabelSearchStep.Event> events = new ArrayList<>();
    private final int maxSteps;
    private int stepCount;
    private boolean fromNet;
    private int atLeastByCuts;
    private FewestObstaclesSearch.Result result;

    private RecordedLabels(Design design, int maxSteps) {
        this.design = design;
        this.maxSteps = maxSteps;
    }

    /**
     * Searches and records.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RecordedLabels of(
            Answer.Blocked blocked, SearchLimits limits, int maxSteps, Progress progress) {
        Question question = blocked.question();
        RecordedLabels played = new RecordedLabels(question.design(), maxSteps);
        played.result =
                FewestObstaclesSearch.run(
                        new QuestionContext(
                                question.design(),
                                question.net(),
                                blocked.disconnected(),
                                question.padValue()),
                        SearchSources.along(
                                question.design().fabric(),
                                question.net().route(),
                                question.corner()),
                        question.padValue(),
                        limits,
                        played.new Note(),
                        progress);
        return played;
    }

    private final class Note implements LabelListener {
        @Override
        public void begun(boolean startsFromNet, int atLeast) {
            fromNet = startsFromNet;
            atLeastByCuts = atLeast;
        }

        @Override
        public void made(int vertex, int[] occupants) {
            add(LabelSearchStep.Event.MADE, vertex, occupants);
        }

        @Override
        public void dropped(int vertex, int[] occupants) {
            add(LabelSearchStep.Event.DROPPED, vertex, occupants);
        }

        @Override
        public void taken(int vertex, int[] occupants) {
            add(LabelSearchStep.Event.TAKEN, vertex, occupants);
        }

        @Override
        public void arrived(int vertex, int[] occupants) {
            add(LabelSearchStep.Event.ARRIVED, vertex, occupants);
        }

        private void add(LabelSearchStep.Event event, int vertex, int[] occupants) {
            if (stepCount++ < maxSteps) {
                events.add(event);
                vertices.add(vertex);
                sets.add(occupants);
            }
        }
    }

    /** Number of recorded steps. */
    public int size() {
        return events.size();
    }

    /** Steps of the search, including those beyond the limit. */
    public int stepCount() {
        return stepCount;
    }

    /** The step at a place, 0 being the first. */
    public LabelSearchStep step(int place) {
        List<Occupant> removed =
                Arrays.stream(sets.get(place)).mapToObj(design.occupancy()::occupant).toList();
        return new LabelSearchStep(events.get(place), vertices.getInt(place), removed);
    }

    /** Whether the search started from the net; else from the pad. */
    public boolean startedFromNet() {
        return fromNet;
    }

    /** Lower bound on the number of obstacles, from cuts, before the first label. */
    public int atLeastByCuts() {
        return atLeastByCuts;
    }

    /** The result of the search. */
    public FewestObstaclesSearch.Result result() {
        return result;
    }
}
