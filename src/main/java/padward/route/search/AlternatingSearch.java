package padward.route.search;

import padward.base.Progress;
import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.route.cost.CostModel;
import padward.route.cost.ObstacleCost;

/**
 * A search that also looks back from its goal. Most goals that cannot be reached are shut off by
 * what stands right before them, and most dear ways pay right there; a forward search would see
 * half the chip before it knew. Forward and backward take turns with growing allowances, so that
 * the whole costs little more than the cheaper of the two. An easy question, and most are, is
 * answered by the first short run forwards.
 */
public final class AlternatingSearch {
    private static final int FIRST_LOOK = 256;
    private static final int FIRST_RUN = 512;
    private static final int GROWTH = 8;

    private AlternatingSearch() {}

    /** The cheapest way, as {@link PathSearch#run} with the best bounds known. */
    public static SearchOutcome run(
            PathSearch search,
            Fabric fabric,
            SearchSources starts,
            int goal,
            Corner corner,
            CostModel model,
            Progress progress) {
        LowerBound delay = LowerBound.best(fabric, goal, corner);
        int look = FIRST_LOOK;
        int run = FIRST_RUN;
        while (true) {
            boolean last = run >= fabric.vertexCount();
            boolean atOnce = run == FIRST_RUN && !(model instanceof ObstacleCost);
            LowerBound bound = delay;
            if (!atOnce) {
                BackwardBound floor = BackwardBound.of(fabric, goal, model, look, delay, progress);
                if (floor.excludes(starts)) {
                    return new SearchOutcome.Unreachable(0);
                }
                bound = model instanceof ObstacleCost ? floor : delay;
            }
            SearchOutcome outcome =
                    search.run(
                            starts,
                            goal,
                            corner,
                            model,
                            bound,
                            last ? Integer.MAX_VALUE : run,
                            progress);
            boolean stopped = outcome instanceof SearchOutcome.Cancelled;
            if (last || !stopped || progress.cancelled()) {
                return outcome;
            }
            look *= GROWTH;
            run *= GROWTH;
        }
    }
}
