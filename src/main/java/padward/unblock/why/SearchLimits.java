package padward.unblock.why;

/**
 * How much work an explanation may take.
 *
 * @param labels most labels of the search for the fewest occupants
 * @param millis most milliseconds of that search; it may go on half as long for alternatives
 * @param alternatives how many different options to give, if there are so many
 * @param cascade how deep moves may push other nets aside: 0 moves onto free wires only
 */
public record SearchLimits(int labels, int millis, int alternatives, int cascade) {
    /** What answers use when nothing else is said. */
    public static final SearchLimits USUAL = new SearchLimits(4_000_000, 600, 4, 1);
}
