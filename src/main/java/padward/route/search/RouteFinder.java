package padward.route.search;

import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;

/**
 * Finds the cheapest route to one goal: the seam at which one search can stand for another. All
 * implementations find routes of equal cost; among routes of equal cost they may choose
 * differently.
 *
 * @see PerimeterSearch
 * @see padward.route.jgrapht.ReferenceSearch
 */
@FunctionalInterface
public interface RouteFinder {
    /**
     * The cheapest route from one of the sources to the goal.
     *
     * @param sources where it may begin, each with what it has cost to get there
     * @param goal vertex where it ends
     * @param corner corner whose delays count
     * @param model what edges cost
     * @param progress asked now and then whether to stop; then the outcome is {@link
     *     SearchOutcome.Cancelled}
     */
    SearchOutcome find(
            SearchSources sources, int goal, Corner corner, CostModel model, Progress progress);
}
