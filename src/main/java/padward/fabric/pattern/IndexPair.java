package padward.fabric.pattern;

/**
 * A pair of members of two groups, both from 0.
 *
 * @param from index in the first group
 * @param to index in the second group
 */
public record IndexPair(int from, int to) {}
