package padward.breakout.ask;

import padward.base.Progress;
import padward.fabric.Corner;
import padward.route.cost.CostModel;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

/**
 * How an {@link Asker} finds the cheapest route: the seam at which other searches can be put in.
 */
public interface RouteSearch {
    /**
     * The cheapest route from the starts to the goal.
     *
     * @param corner corner whose delays count
     * @param model what edges cost
     */
    SearchOutcome run(
            SearchSources starts, int goal, Corner corner, CostModel model, Progress progress);
}
