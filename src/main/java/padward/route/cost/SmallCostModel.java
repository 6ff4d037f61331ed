package padward.route.cost;

/** A cost model that the fast searches know: it has a form in numbers of 31 bits. */
public sealed interface SmallCostModel extends CostModel
        permits DelayOnlyCost, FreeOnlyCost, ObstacleCost, CongestionCost {
    /** The same costs in small numbers. O(1). */
    SmallCost small();
}
