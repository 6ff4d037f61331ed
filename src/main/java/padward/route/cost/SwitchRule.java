package padward.route.cost;

/**
 * What it costs to turn a switch on, beyond what the step itself costs: it may be excluded by
 * another one of its group. Asked of steps only that a cost model leaves open.
 */
@FunctionalInterface
public interface SwitchRule {
    /** All switches can be turned on. */
    SwitchRule NONE = (from, to) -> 0;

    /**
     * The additional cost of a switch, not negative, or {@link CostModel#CLOSED}.
     *
     * @param from vertex that it leaves
     * @param to vertex that it enters
     */
    long price(int from, int to);
}
