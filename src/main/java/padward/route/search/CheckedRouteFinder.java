package padward.route.search;

import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Predicate;
import java.util.function.Supplier;
import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;

/**
 * Finds the cheapest route that also passes a check of the whole route, which no cost of single
 * edges can express: a route through a pad drives that pad too, say. Such routes are rare, so the
 * search runs without the check and is repeated, over what the refusal has closed, when one turns
 * up (a lazy constraint, in the words of integer programming).
 *
 * @param finder the search; belongs to one thread, and so does this
 * @param corner corner at which routes are to have the least delay
 * @param progress asked now and then whether to stop
 */
public record CheckedRouteFinder(RouteFinder finder, Corner corner, Progress progress) {
    /**
     * The cheapest route that is not refused; empty when there is none.
     *
     * @param model the costs, asked for again before each search
     * @param refuses whether a route is refused; must then have changed what the model says
     * @throws CancellationException when {@code progress} says so
     */
    public Optional<VertexPath> find(
            SearchSources sources,
            int goal,
            Supplier<? extends CostModel> model,
            Predicate<VertexPath> refuses) {
        while (true) {
            SearchOutcome outcome = finder.find(sources, goal, corner, model.get(), progress);
            progress.check();
            if (!(outcome instanceof SearchOutcome.Found found)) {
                return Optional.empty();
            }
            if (!refuses.test(found.path())) {
                return Optional.of(found.path());
            }
        }
    }
}
