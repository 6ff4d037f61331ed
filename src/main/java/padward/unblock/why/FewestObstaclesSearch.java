package padward.unblock.why;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.design.Occupant;
import padward.fabric.Pad;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.ReleaseRules;

/** The search for the fewest occupants by itself, watched: the one that explanations run. */
public final class FewestObstaclesSearch {
    /**
     * What it found.
     *
     * @param sets sets of occupants that open a route, fewest first
     * @param atLeast no route can be opened by fewer occupants than this
     * @param certain whether the first set is proven to have the fewest
     */
    public record Result(List<List<Occupant>> sets, int atLeast, boolean certain) {
        /** Copies the sets. */
        public Result {
            sets = sets.stream().map(List::copyOf).toList();
        }
    }

    private FewestObstaclesSearch() {}

    /**
     * Searches for a blocked question. There must be a route once all occupants are removed.
     *
     * @param starts the net's tree
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static Result run(
            QuestionContext context,
            SearchSources starts,
            Pad pad,
            SearchLimits limits,
            LabelListener watcher,
            Progress progress) {
        ReleaseRules rules = new ReleaseRules(context, context.enableOccupant(pad));
        MinimumColorSearch.Result found =
                MinimumColorSearch.run(
                        context,
                        rules,
                        starts,
                        pad.vertex(),
                        limits,
                        Optional.of(watcher),
                        progress);
        List<List<Occupant>> sets =
                found.sets().stream()
                        .map(
                                set ->
                                        Arrays.stream(set)
                                                .mapToObj(context.design().occupancy()::occupant)
                                                .toList())
                        .toList();
        return new Result(sets, found.atLeast(), found.certain());
    }
}
