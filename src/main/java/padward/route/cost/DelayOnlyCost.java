package padward.route.cost;

/** Delay alone, nothing closed: the empty fabric. */
public record DelayOnlyCost() implements SmallCostModel {
    @Override
    public long cost(int from, int to, int delayPs) {
        return delayPs;
    }

    @Override
    public SmallCost small() {
        return SmallCost.ofDelay(BlockedVertices.NONE);
    }
}
