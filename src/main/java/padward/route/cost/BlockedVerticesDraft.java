package padward.route.cost;

import it.unimi.dsi.fastutil.ints.IntIterable;
import it.unimi.dsi.fastutil.ints.IntIterator;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.BitSet;
import padward.design.Occupancy;

/**
 * A set of blocked vertices while it is worked out: what a design uses, changed vertex by vertex.
 * Only what differs from the design that was read takes time and memory.
 */
public final class BlockedVerticesDraft {
    private final BitSet shared;
    private final IntSet different;

    /** What stays blocked whatever is freed. */
    private final BitSet unusable;

    private BlockedVerticesDraft(BitSet shared, IntSet different, BitSet unusable) {
        this.shared = shared;
        this.different = different;
        this.unusable = unusable;
    }

    /** What a design uses, and what the fabric marks as unusable, which cannot be freed. */
    public static BlockedVerticesDraft of(Occupancy occupancy) {
        return new BlockedVerticesDraft(
                occupancy.sharedBits(),
                new IntOpenHashSet(occupancy.differing()),
                occupancy.unusable());
    }

    /** The same, to be changed on its own. */
    public BlockedVerticesDraft copy() {
        return new BlockedVerticesDraft(shared, new IntOpenHashSet(different), unusable);
    }

    /** Whether a vertex is blocked. */
    public boolean isBlocked(int vertex) {
        return shared.get(vertex) != different.contains(vertex);
    }

    /** Blocks a vertex. */
    public void block(int vertex) {
        set(vertex, true);
    }

    /** Frees a vertex. */
    public void free(int vertex) {
        set(vertex, false);
    }

    /** Blocks all of these vertices. */
    public BlockedVerticesDraft blockAll(IntIterable vertices) {
        for (IntIterator i = vertices.iterator(); i.hasNext(); ) {
            set(i.nextInt(), true);
        }
        return this;
    }

    /** Frees all of these vertices. */
    public BlockedVerticesDraft freeAll(IntIterable vertices) {
        for (IntIterator i = vertices.iterator(); i.hasNext(); ) {
            set(i.nextInt(), false);
        }
        return this;
    }

    private void set(int vertex, boolean blocked) {
        if (shared.get(vertex) == (blocked || unusable.get(vertex))) {
            different.remove(vertex);
        } else {
            different.add(vertex);
        }
    }

    /** The set as it is now, for a search. */
    public BlockedVertices toVertices() {
        return new BlockedVertices(shared, different);
    }
}
