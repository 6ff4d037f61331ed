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
 * takes little more than the cheaper of the two; each goes on where it stopped, except forwards
 * among obstacles, where the bound has changed. An easy question, and most are, is answered by the
 * first short turn forwards. Belongs to one thread.
 */
public final class PerimeterSearch implements RouteFinder {
    private static final int FIRST_BACKWARD = 256;
    private static final int FIRST_FORWARD = 512;
    private static final int GROWTH = 8;

    /**
     * For so many vertices forwards one backwards, where a search backwards can only tell that
     * there is no route: a vertex takes it four to five times as long as one forwards.
     */
    private static final int FORWARD_A_BACKWARD = 8;

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
        PerimeterBound perimeter = PerimeterBound.before(goal, delay);
        return model instanceof ObstacleCost
                ? amongObstacles(sources, goal, corner, model, perimeter, progress)
                : amongOpen(sources, goal, corner, model, perimeter, progress);
    }

    /** Each run forwards goes on where the one before it stopped, as its bound stays the same. */
    private SearchOutcome amongOpen(
            SearchSources sources,
            int goal,
            Corner corner,
            CostModel model,
            PerimeterBound perimeter,
            Progress progress) {
        int forward = FIRST_FORWARD;
        SearchOutcome outcome =
                search.run(
                        sources, goal, corner, model, perimeter.delay(), limit(forward), progress);
        while (search.isAtLimit()) {
            perimeter.grow(
                    fabric,
                    model,
                    Math.max(FIRST_BACKWARD, forward / FORWARD_A_BACKWARD),
                    progress);
            if (perimeter.excludes(sources)) {
                return new SearchOutcome.Unreachable(0);
            }
            forward *= GROWTH;
            outcome = search.goOn(limit(forward), progress);
        }
        return outcome;
    }

    /**
     * Each run forwards begins again, as its bound, and with it the order of its queue, changes.
     */
    private SearchOutcome amongObstacles(
            SearchSources sources,
            int goal,
            Corner corner,
            CostModel model,
            PerimeterBound perimeter,
            Progress progress) {
        int backward = FIRST_BACKWARD;
        int forward = FIRST_FORWARD;
        while (true) {
            perimeter.grow(fabric, model, backward, progress);
            if (perimeter.excludes(sources)) {
                return new SearchOutcome.Unreachable(0);
            }
            SearchOutcome outcome =
                    search.run(sources, goal, corner, model, perimeter, limit(forward), progress);
            if (!search.isAtLimit()) {
                return outcome;
            }
            backward *= GROWTH;
            forward *= GROWTH;
        }
    }

    /** There is no limit where it would not come before the end of the chip. */
    private int limit(int forward) {
        return forward >= fabric.vertexCount() ? Integer.MAX_VALUE : forward;
    }
}
