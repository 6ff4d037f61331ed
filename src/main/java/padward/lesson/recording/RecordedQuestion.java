package padward.lesson.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.fabric.Fabric;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.ObstacleCost;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.RouteFinder;
import padward.route.search.SearchOutcome;

/**
 * A question answered while its searches were recorded.
 *
 * @param method the search method
 * @param answer the quick answer, the same as without recording
 * @param parts its searches in order: over free resources; then, if that fails, also over used
 *     ones, at a price for each obstacle
 */
public record RecordedQuestion(PlayedSearch method, Answer answer, List<Part> parts) {
    /**
     * One search of the question.
     *
     * @param priced whether it also went over used resources, at a price for each obstacle
     * @param recording its steps
     */
    public record Part(boolean priced, Recording recording) {
        /** What it searched, in a few words for the screen. */
        public String what() {
            return priced
                    ? "over free and used resources, with obstacles at a price"
                    : "over free resources only";
        }
    }

    /** Copies the parts. */
    public RecordedQuestion {
        parts = List.copyOf(parts);
    }

    /**
     * Answers a question and records its searches.
     *
     * @param maxSteps limit on the recorded steps of each search
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static RecordedQuestion of(
            Question question, PlayedSearch method, int maxSteps, Progress progress) {
        Fabric fabric = question.design().fabric();
        Recorder recorder = new Recorder(maxSteps);
        PathSearch search = new PathSearch(fabric, recorder);
        RouteFinder perimeter = new PerimeterSearch(search);
        List<Part> parts = new ArrayList<>();
        RouteFinder recorded =
                (starts, goal, corner, model, work) -> {
                    SearchOutcome outcome =
                            switch (method) {
                                case A_STAR ->
                                        search.run(
                                                starts,
                                                goal,
                                                corner,
                                                model,
                                                FabricIndex.of(fabric)
                                                        .bestBound(goal, corner, work),
                                                work);
                                case DIJKSTRA ->
                                        search.run(
                                                starts, goal, corner, model, LowerBound.NONE, work);
                                case AS_ASKED -> perimeter.find(starts, goal, corner, model, work);
                            };
                    parts.add(new Part(model instanceof ObstacleCost, recorder.take(outcome)));
                    return outcome;
                };
        Answer answer = new Asker(fabric, recorded).answer(question, progress);
        return new RecordedQuestion(method, answer, parts);
    }

    /** The search that found the route, or the last one if none did. */
    public Optional<Part> decisive() {
        return parts.isEmpty() ? Optional.empty() : Optional.of(parts.get(parts.size() - 1));
    }
}
