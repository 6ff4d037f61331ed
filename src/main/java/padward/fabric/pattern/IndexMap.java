package padward.fabric.pattern;

import java.util.List;

/**
 * Which members of one group of wires or pins meet which members of another. With m members on the
 * {@code from} side and n on the {@code to} side.
 */
public sealed interface IndexMap {
    /**
     * Member i of the longer group meets member i, modulo the shorter group's size, of the other.
     */
    record Same() implements IndexMap {}

    /**
     * As {@link Same}, but the {@code to} index is turned on by a number of places, modulo n.
     *
     * @param places places to turn by, may be negative
     */
    record Rotate(int places) implements IndexMap {}

    /** Member i meets member n - 1 - i, modulo as for {@link Same}. */
    record Mirror() implements IndexMap {}

    /** Every member meets every member. */
    record All() implements IndexMap {}

    /**
     * Each member j of {@code to} meets {@code each} members of {@code from}, evenly spaced: {@code
     * (j * shift + floor(k * m / each)) mod m} for k = 0 .. each - 1.
     *
     * @param each how many members of {@code from} each member of {@code to} meets (Fc of Rose and
     *     Brown for pins)
     * @param shift how far the choice moves from one member of {@code to} to the next
     */
    record Spread(int each, int shift) implements IndexMap {}

    /**
     * The listed pairs.
     *
     * @param pairs pairs of (from index, to index)
     */
    record Pairs(List<IndexPair> pairs) implements IndexMap {
        /** Copies the pairs. */
        public Pairs {
            pairs = List.copyOf(pairs);
        }
    }

    /**
     * One of the published topologies; both groups are wires with equal counts, and the sides
     * follow from the steps of the wires.
     *
     * @param topology which
     */
    record ByTopology(SwitchBoxTopology topology) implements IndexMap {}
}
