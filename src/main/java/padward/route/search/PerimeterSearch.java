package padward.route.search;

import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.ObstacleCost;

/**
 * Perimeter search (Dillenburg and Nelson, "Perimeter search", Artificial Intelligence 65(1), 1994,
 * 165-178): a bounded search backwards from the goal sharpens the lower bound of the search
 * forwards. Most goals that cannot be reached are closed off by what stands right before them, and
 * most expensive routes pay right there; a forward search would see half the chip before it knew.
 *
 * <p>Unlike in the paper, the two take turns with limits that grow eightfold, so that the whole
 * takes little more than the cheaper of the two. An easy question, and most are, is answered by the
 * first short run forwards. Belongs to one thread.
 */
public final class PerimeterSearch implements RouteFinder {
    private static final int FIRST_BACKWARD = 256;
    private static final int FIRST_FORWARD = 512;
    private static final int GROWTH = 8;

    private final PathSearch search;
    private final Fabric fabric;

    /**
     * @param search runs forwards; its state is overwritten by each question
     */
    public PerimeterSearch(PathSearch search) {
        this.search = search;
        this.fabric = search.fabric();
    }

    @Override
    public SearchOutcome find(
            SearchSources sources, int goal, Corner corner, CostModel model, Progress progress) {
        LowerBound delay;
        try {
            delay = FabricIndex.of(fabric).bestBound(goal, corner, progress);
        } catch (CancellationException stopped) {
            return new SearchOutcome.Cancelled(0);
        }
        int backward = FIRST_BACKWARD;
        int forward = FIRST_FORWARD;
        while (true) {
            boolean last = forward >= fabric.vertexCount();
            boolean atOnce = forward == FIRST_FORWARD && !(model instanceof ObstacleCost);
            LowerBound bound = delay;
            if (!atOnce) {
                PerimeterBound perimeter =
                        PerimeterBound.of(fabric, goal, model, backward, delay, progress);
                if (perimeter.excludes(sources)) {
                    return new SearchOutcome.Unreachable(0);
                }
                bound = model instanceof ObstacleCost ? perimeter : delay;
            }
            SearchOutcome outcome =
                    search.run(
                            sources,
                            goal,
                            corner,
                            model,
                            bound,
                            last ? Integer.MAX_VALUE : forward,
                            progress);
            boolean stopped = outcome instanceof SearchOutcome.Cancelled;
            if (last || !stopped || progress.cancelled()) {
                return outcome;
            }
            backward *= GROWTH;
            forward *= GROWTH;
        }
    }
}
