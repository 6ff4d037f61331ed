package padward.route;

import java.util.BitSet;

/** Delay alone, over vertices that nothing holds. */
public final class FreeWays implements CostModel {
    private final BitSet closed;

    /**
     * @param closed vertices that may not be entered; kept, not copied, and not to be changed
     */
    public FreeWays(BitSet closed) {
        this.closed = closed;
    }

    @Override
    public long cost(int from, int to, int delayPs) {
        return closed.get(to) ? CLOSED : delayPs;
    }
}
