package padward.route.cost;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.BitSet;

/**
 * A set of vertices, as a large set that many questions share and the few vertices in which this
 * set differs from it. A search keeps its copy of the shared set between questions, so that a
 * question costs nothing for the vertices that it has in common with the one before.
 */
public final class BlockedVertices {
    private static final BitSet EMPTY = new BitSet();

    /** The set without members. */
    public static final BlockedVertices NONE = new BlockedVertices(EMPTY, IntSets.EMPTY_SET);

    private final BitSet base;
    private final IntSet different;

    /**
     * @param base the shared set; kept, not copied, and not to be changed
     * @param different vertices that are in the set and not in {@code base}, or in {@code base} and
     *     not in the set; copied
     */
    public BlockedVertices(BitSet base, IntSet different) {
        this.base = base;
        this.different = new IntOpenHashSet(different);
    }

    /** The members of {@code base}, which is kept and not to be changed. */
    public static BlockedVertices of(BitSet base) {
        return new BlockedVertices(base, IntSets.EMPTY_SET);
    }

    /** Few vertices without a shared part; copied. */
    public static BlockedVertices listed(IntSet members) {
        return new BlockedVertices(EMPTY, members);
    }

    /** The same set, but with some of its members left out and some others added. */
    public BlockedVertices with(IntSet added, IntSet leftOut) {
        IntSet flipped = new IntOpenHashSet();
        for (int vertex : added) {
            if (!get(vertex)) {
                flipped.add(vertex);
            }
        }
        for (int vertex : leftOut) {
            if (get(vertex) && !added.contains(vertex)) {
                flipped.add(vertex);
            }
        }
        if (flipped.isEmpty()) {
            return this;
        }
        IntSet result = new IntOpenHashSet(different);
        for (int vertex : flipped) {
            if (!result.remove(vertex)) {
                result.add(vertex);
            }
        }
        return new BlockedVertices(base, result);
    }

    /** Whether a vertex is in the set. */
    public boolean get(int vertex) {
        return base.get(vertex) != (!different.isEmpty() && different.contains(vertex));
    }

    /** The shared part. */
    public BitSet base() {
        return base;
    }

    /** The vertices in which this set differs from the shared part. */
    public IntSet different() {
        return different;
    }
}
