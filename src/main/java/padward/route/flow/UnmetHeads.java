package padward.route.flow;

import java.util.Optional;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.pattern.BitsetAdjacency;
import padward.fabric.pattern.PatternFabric;

/**
 * Walks over the vertices to which the edges of a vertex lead, without those that are said to have
 * been met. On pattern fabrics a mask drops many of these at once, so that a search which meets
 * every vertex looks at most edges not one by one. Belongs to one search.
 */
final class UnmetHeads {
    private final EdgeCursor edges;
    private final Optional<BitsetAdjacency> masks;

    /** A bit for each vertex, and a word more than windows need. */
    private final long[] met;

    private int tile;
    private int group;
    private int end;
    private long open;
    private int base;
    private int other;

    UnmetHeads(Fabric fabric) {
        edges = fabric.edgesOut();
        masks =
                fabric instanceof PatternFabric pattern
                        ? Optional.of(pattern.maskedEdges())
                        : Optional.empty();
        met = new long[(fabric.vertexCount() >>> 6) + 3];
    }

    /** Places it before the first edge of a vertex. */
    void reset(int vertex) {
        if (masks.isEmpty()) {
            edges.reset(vertex);
            return;
        }
        BitsetAdjacency all = masks.get();
        tile = all.tile(vertex);
        int span = all.groupSpan[all.row(tile, vertex)];
        group = span >>> BitsetAdjacency.SPAN_BITS;
        end = group + (span & BitsetAdjacency.SPAN_MASK);
        open = 0;
    }

    /** Moves on to the next vertex; false when there is none. */
    boolean next() {
        return masks.isPresent() ? nextOf(masks.get()) : nextEdge();
    }

    private boolean nextEdge() {
        while (edges.next()) {
            other = edges.other();
            if ((met[other >>> 6] & 1L << other) == 0) {
                return true;
            }
        }
        return false;
    }

    private boolean nextOf(BitsetAdjacency all) {
        while (open == 0) {
            if (group == end) {
                return false;
            }
            long where = all.groups[2 * group + 1];
            int first = all.vertexBase[tile + BitsetAdjacency.step(where)];
            base = first + BitsetAdjacency.local(where);
            int word = base >>> 6;
            // Shifts count modulo 64, so a shift by 64 has to be made in two.
            long done = met[word] >>> base | met[word + 1] << 1 << (~base & 63);
            open = all.groups[2 * group] & ~done;
            group++;
        }
        other = base + Long.numberOfTrailingZeros(open);
        open &= open - 1;
        return true;
    }

    /** The vertex. */
    int other() {
        return other;
    }

    /** Says that a vertex need not be looked at again. */
    void meet(int vertex) {
        met[vertex >>> 6] |= 1L << vertex;
    }
}
