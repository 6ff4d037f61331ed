package padward.route.search;

import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Predicate;
import java.util.function.Supplier;
import padward.base.Progress;
import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.route.cost.CostModel;

/**
 * Finds the cheapest way that also passes a test of the whole way, which no cost of single steps
 * can make beforehand: a way through a pad drives that pad too, say. Such ways are rare, so the
 * search runs without them in mind and is done again, over what the refusal has closed, when one
 * turns up.
 *
 * @param search the search, and with it its state; belongs to one thread
 * @param corner where ways shall be quick
 * @param progress asked now and then whether to stop
 */
public record RouteFinder(PathSearch search, Fabric fabric, Corner corner, Progress progress) {
    /**
     * The cheapest way that is not refused; empty when there is none.
     *
     * @param model the costs, asked for anew before each search
     * @param refuses whether a way will not do; must then have changed what the model says
     * @throws CancellationException when {@code progress} says so
     */
    public Optional<VertexPath> find(
            SearchSources starts,
            int goal,
            Supplier<CostModel> model,
            Predicate<VertexPath> refuses) {
        while (true) {
            SearchOutcome outcome =
                    AlternatingSearch.run(
                            search, fabric, starts, goal, corner, model.get(), progress);
            if (progress.cancelled()) {
                throw new CancellationException("stopped on request");
            }
            if (!(outcome instanceof SearchOutcome.Found found)) {
                return Optional.empty();
            }
            if (!refuses.test(found.path())) {
                return Optional.of(found.path());
            }
        }
    }
}
