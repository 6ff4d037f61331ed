package padward.route.search;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.BitsetAdjacency;

/**
 * The groups of {@link BitsetAdjacency}, merged for sweeps. What the slowest edge into a vertex
 * takes is known from the vertex, whatever edge it is; so all groups of slowest edges that lead
 * from one vertex into the same 64 become one block, which is tested at once. A wire mostly has a
 * single block: everything that its far end leads to. Other groups are a block each.
 *
 * <p>Block b is {@code words[2 * b]} ({@link #step}, {@link #local}) and {@code words[2 * b + 1]},
 * its targets. Memory: some bytes for each row and each block, whatever the size of the fabric.
 */
final class TileBlocks {
    /** How many low bits of {@link #span} are the number of blocks. */
    static final int COUNT_BITS = BitsetAdjacency.SPAN_BITS;

    /** Those bits. */
    static final int COUNT_MASK = BitsetAdjacency.SPAN_MASK;

    /** For each row of the masked edges, its first block and how many there are. */
    final int[] span;

    /** For each block two words. */
    final long[] words;

    /** For each block the group that it is, or {@link Fabric#NOTHING} for one of slowest edges. */
    private final int[] group;

    private final BitsetAdjacency edges;

    TileBlocks(BitsetAdjacency edges) {
        this.edges = edges;
        span = new int[edges.rowCount()];
        LongArrayList all = new LongArrayList();
        IntArrayList groups = new IntArrayList();
        // Equal rows share their groups, and so their blocks.
        Int2IntOpenHashMap known = new Int2IntOpenHashMap();
        known.defaultReturnValue(Fabric.NOTHING);
        for (int row = 0; row < span.length; row++) {
            int own = edges.groupSpan[row];
            int blocks = known.get(own);
            if (blocks == Fabric.NOTHING) {
                int start = groups.size();
                int first = own >>> BitsetAdjacency.SPAN_BITS;
                add(first, first + (own & BitsetAdjacency.SPAN_MASK), all, groups);
                blocks = start << COUNT_BITS | groups.size() - start;
                known.put(own, blocks);
            }
            span[row] = blocks;
        }
        words = all.toLongArray();
        group = groups.toIntArray();
    }

    private void add(int first, int end, LongArrayList all, IntArrayList groups) {
        boolean[] taken = new boolean[end - first];
        for (int g = first; g < end; g++) {
            if (taken[g - first]) {
                continue;
            }
            long where = edges.groups[2 * g + 1];
            boolean slowest = BitsetAdjacency.isSlowest(where);
            int low = slowest ? lowest(g, end) : BitsetAdjacency.local(where);
            long targets = 0;
            for (int h = g; h < (slowest ? end : g + 1); h++) {
                int shift = BitsetAdjacency.local(edges.groups[2 * h + 1]) - low;
                if (!taken[h - first] && (h == g || joins(g, h)) && fits(h, shift)) {
                    taken[h - first] = true;
                    targets |= edges.groups[2 * h] << shift;
                }
            }
            all.add((long) BitsetAdjacency.step(where) << Integer.SIZE | low);
            all.add(targets);
            groups.add(slowest ? Fabric.NOTHING : g);
        }
    }

    /** The lowest local number from which a block can begin that still takes in group g. */
    private int lowest(int g, int end) {
        int own = BitsetAdjacency.local(edges.groups[2 * g + 1]);
        int low = own;
        for (int h = g + 1; h < end; h++) {
            int local = BitsetAdjacency.local(edges.groups[2 * h + 1]);
            if (joins(g, h) && fits(g, own - local)) {
                low = Math.min(low, local);
            }
        }
        return low;
    }

    private boolean joins(int g, int h) {
        long one = edges.groups[2 * g + 1];
        long other = edges.groups[2 * h + 1];
        return BitsetAdjacency.isSlowest(one)
                && BitsetAdjacency.isSlowest(other)
                && BitsetAdjacency.step(one) == BitsetAdjacency.step(other);
    }

    /** Whether a group's targets stay within a word when they are moved up. */
    private boolean fits(int g, int shift) {
        return shift >= 0 && shift <= Long.numberOfLeadingZeros(edges.groups[2 * g]);
    }

    /** The step from the vertex's tile to the targets' tile, in tile numbers. */
    static int step(long word) {
        return (int) (word >> Integer.SIZE);
    }

    /** The local number of the target that bit 0 stands for. */
    static int local(long word) {
        return (int) word;
    }

    /**
     * For each block the delay of its edges at a corner in picoseconds, or {@link Fabric#NOTHING}
     * where it is that of the slowest edge into each target.
     */
    int[] delayPs(Corner corner) {
        int[] result = new int[group.length];
        for (int b = 0; b < result.length; b++) {
            result[b] = group[b] == Fabric.NOTHING ? group[b] : edges.delayPs(corner)[group[b]];
        }
        return result;
    }

    /**
     * For each row of the masked edges the delay of the slowest edge into its vertices; as its
     * complement, which is negative, where no edge leads on from them.
     */
    int[] slowestPs(Corner corner) {
        int[] result = edges.slowestPs(corner).clone();
        for (int row = 0; row < result.length; row++) {
            if ((edges.groupSpan[row] & BitsetAdjacency.SPAN_MASK) == 0) {
                result[row] = ~result[row];
            }
        }
        return result;
    }

    /** Bytes of the arrays. */
    long bytes() {
        return 4L * (span.length + group.length) + 8L * words.length;
    }
}
