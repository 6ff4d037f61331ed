package padward.route.cost;

import java.util.BitSet;

/**
 * Delay alone, over vertices that nothing uses.
 *
 * @param closed vertices that may not be entered
 */
public record FreeOnlyCost(BlockedVertices closed) implements SmallCostModel {
    /** Over all but the members of a set, which is kept and not to be changed. */
    public FreeOnlyCost(BitSet closed) {
        this(BlockedVertices.of(closed));
    }

    @Override
    public long cost(int from, int to, int delayPs) {
        return closed.get(to) ? CLOSED : delayPs;
    }

    @Override
    public SmallCost small() {
        return SmallCost.ofDelay(closed);
    }
}
