package padward.breakout;

import padward.base.Progress;
import padward.fabric.Corner;
import padward.route.CostModel;
import padward.route.SearchOutcome;
import padward.route.Starts;

/** How an {@link Asker} finds the cheapest way: the seam at which other searches can be put in. */
public interface WaySearch {
    /**
     * The cheapest way from the starts to the goal.
     *
     * @param corner corner whose delays count
     * @param model what edges cost
     */
    SearchOutcome run(Starts starts, int goal, Corner corner, CostModel model, Progress progress);
}
