package padward.breakout.verify;

import java.util.List;
import java.util.Optional;
import padward.fabric.delay.Delay;

/**
 * A net that is not alike in two designs.
 *
 * @param name its name
 * @param how whether it is gone, changed or new
 * @param stepsGone steps of its wires that only the first design has, in the tree's order
 * @param stepsNew steps that only the second has
 * @param facts what else differs: driver, clock, required time
 * @param ends its driver's delays to its ends, where an end or a delay differs
 */
public record NetDiff(
        String name,
        Difference how,
        List<Step> stepsGone,
        List<Step> stepsNew,
        List<Fact> facts,
        List<EndDelay> ends) {
    /** Copies the lists. */
    public NetDiff {
        stepsGone = List.copyOf(stepsGone);
        stepsNew = List.copyOf(stepsNew);
        facts = List.copyOf(facts);
        ends = List.copyOf(ends);
    }

    /**
     * One switch, fixed connection or pass-through in use.
     *
     * @param from the vertex that it leads from
     * @param to the vertex that it leads to
     */
    public record Step(int from, int to) {}

    /**
     * Something said of a net, cell or port, before and after.
     *
     * @param what which it is, {@code driver}
     * @param before as it was; empty when there was none
     * @param after as it is; empty when there is none
     */
    public record Fact(String what, String before, String after) {}

    /**
     * An end of a net and the delay to it.
     *
     * @param end the end, {@code cell.pin} or {@code port NAME}
     * @param before delay from the driver in the first design; empty when the end is not there, or
     *     not reached
     * @param after the same in the second
     */
    public record EndDelay(String end, Optional<Delay> before, Optional<Delay> after) {}
}
