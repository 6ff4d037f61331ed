package padward.route;

import java.util.Arrays;
import padward.base.Progress;
import padward.fabric.MaskedEdges;

/**
 * Dijkstra's search over a whole pattern fabric, without goal or bound: the loop of {@link
 * IntSearch} and the queue of {@link BucketQueue} written out in one method, so that everything it
 * touches stays in registers. Vertices come in the order of their costs, so what an edge has
 * reached once can only be improved on by an edge that is quicker than the slowest into it; most
 * targets are dropped by a mask for that reason. Leaves are not queued; their costs are final when
 * the sweep is.
 *
 * <p>Steps must be shorter than the ring: a sweep that meets a longer one gives up, and the search
 * that called it goes on in its own way.
 */
final class MaskSweep {
    private static final int RING = 8192;
    private static final int NONE = -1;
    private static final int POPS_BETWEEN_CHECKS = 1 << 16;

    private final MaskedEdges edges;
    private final SearchState state;
    private final long[] reached;
    private final int[] head = new int[RING];
    private final long[] filled = new long[RING / Long.SIZE];

    /** Pairs: a vertex, and the next entry of its bucket or of the free list. */
    private int[] entries = new int[1 << 12];

    private int settled;

    MaskSweep(MaskedEdges edges, SearchState state) {
        this.edges = edges;
        this.state = state;
        this.reached = new long[state.done.length];
    }

    int settled() {
        return settled;
    }

    /**
     * Sweeps from the vertices that the state holds with their costs.
     *
     * @return how it ended; {@link IntSearch.End#TOO_COSTLY} when a step or a start is too long for
     *     the ring, and the state must be set up anew
     */
    IntSearch.End run(
            int[] starts, int[] startCosts, int[] delayPs, CongestedWays congested, Progress p) {
        int first = Arrays.stream(startCosts).min().orElse(0);
        int last = Arrays.stream(startCosts).max().orElse(0);
        if (last - first >= RING || Arrays.stream(delayPs).anyMatch(d -> d >= RING)) {
            return IntSearch.End.TOO_COSTLY;
        }
        state.touchAll();
        System.arraycopy(state.done, 0, reached, 0, reached.length);
        Arrays.fill(head, NONE);
        Arrays.fill(filled, 0);
        while (entries.length < 2 * starts.length) {
            entries = new int[entries.length * 2];
        }
        for (int i = 0; i < starts.length; i++) {
            int bucket = startCosts[i] & (RING - 1);
            entries[2 * i] = starts[i];
            entries[2 * i + 1] = head[bucket];
            head[bucket] = 2 * i;
            filled[bucket >>> 6] |= 1L << bucket;
        }
        settled = 0;
        return loop(first, 2 * starts.length, delayPs, congested, p);
    }

    private IntSearch.End loop(
            int first, int firstUnused, int[] delayPs, CongestedWays congested, Progress progress) {
        int[] vertexBase = edges.vertexBase;
        int[] tileOfBlock = edges.tileOfBlock;
        int[] firstRow = edges.firstRow;
        int[] groupSpan = edges.groupSpan;
        long[] groups = edges.groups;
        int[] cost = state.cost;
        long[] done = state.done;
        long[] seen = reached;
        int[] ring = head;
        long[] some = filled;
        int[] queue = entries;
        int[] prices = congested == null ? null : congested.pricePs();
        // Where nothing is overused all factors are 1: then they need not be looked up one by one.
        int[] times = congested == null || areOnes(congested.times()) ? null : congested.times();
        int unused = firstUnused;
        int free = NONE;
        int current = first;
        int pops = 0;
        while (true) {
            int bucket = current & (RING - 1);
            int entry = ring[bucket];
            if (entry == NONE) {
                int ahead = ahead(some, bucket);
                if (ahead < 0) {
                    settled = pops;
                    return IntSearch.End.UNREACHABLE;
                }
                current += ahead;
                if (current >= IntCosts.MOST) {
                    return IntSearch.End.TOO_COSTLY;
                }
                continue;
            }
            int vertex = queue[entry];
            int next = queue[entry + 1];
            ring[bucket] = next;
            if (next == NONE) {
                some[bucket >>> 6] &= ~(1L << bucket);
            }
            queue[entry + 1] = free;
            free = entry;
            if (cost[vertex] != current) {
                // It has come out before, at less.
                continue;
            }
            pops++;
            if ((pops & (POPS_BETWEEN_CHECKS - 1)) == 0) {
                progress.report(-1, "sweeping, " + pops + " vertices settled");
                if (progress.cancelled()) {
                    settled = pops;
                    return IntSearch.End.CANCELLED;
                }
            }
            int tile = tileOfBlock[vertex >>> MaskedEdges.BLOCK_BITS];
            while (vertexBase[tile + 1] <= vertex) {
                tile++;
            }
            int span = groupSpan[firstRow[tile] + vertex - vertexBase[tile]];
            int group = span >>> MaskedEdges.SPAN_BITS;
            int end = group + (span & MaskedEdges.SPAN_MASK);
            for (; group < end; group++) {
                long where = groups[2 * group + 1];
                int base = vertexBase[tile + MaskedEdges.step(where)] + MaskedEdges.local(where);
                int word = base >>> 6;
                long[] shut = MaskedEdges.isSlowest(where) ? seen : done;
                // Shifts count modulo 64, so a shift by 64 has to be made in two.
                long window = shut[word] >>> base | shut[word + 1] << 1 << (~base & 63);
                long open = groups[2 * group] & ~window;
                if (open == 0) {
                    continue;
                }
                int step = delayPs[group];
                do {
                    int to = base + Long.numberOfTrailingZeros(open);
                    open &= open - 1;
                    seen[to >>> 6] |= 1L << to;
                    int sum = current + step;
                    int known = cost[to];
                    if (sum >= known) {
                        // A price can only add to it: no need to look one up.
                        continue;
                    }
                    if (prices != null) {
                        long product = (long) step + prices[to];
                        if (times != null) {
                            product *= times[to];
                        }
                        if (product >= RING) {
                            return IntSearch.End.TOO_COSTLY;
                        }
                        sum = current + (int) product;
                        if (sum >= known) {
                            continue;
                        }
                    }
                    cost[to] = sum;
                    if (MaskedEdges.isLeaf(where)) {
                        continue;
                    }
                    int place = free;
                    if (place == NONE) {
                        place = unused;
                        unused += 2;
                        if (unused > queue.length) {
                            queue = Arrays.copyOf(queue, queue.length * 2);
                            entries = queue;
                        }
                    } else {
                        free = queue[place + 1];
                    }
                    int slot = sum & (RING - 1);
                    int top = ring[slot];
                    queue[place] = to;
                    queue[place + 1] = top;
                    ring[slot] = place;
                    if (top == NONE) {
                        some[slot >>> 6] |= 1L << slot;
                    }
                } while (open != 0);
            }
        }
    }

    private static boolean areOnes(int[] values) {
        for (int value : values) {
            if (value != 1) {
                return false;
            }
        }
        return true;
    }

    /** How many buckets on the next one is that holds something; negative when there is none. */
    private static int ahead(long[] filled, int bucket) {
        int word = bucket >>> 6;
        long bits = filled[word] & (-1L << bucket);
        for (int i = 0; i <= filled.length; i++) {
            if (bits != 0) {
                int found = (word << 6) + Long.numberOfTrailingZeros(bits);
                return (found - bucket) & (RING - 1);
            }
            word = (word + 1) & (filled.length - 1);
            bits = filled[word];
        }
        return -1;
    }

    /** Bytes held. */
    long bytes() {
        return 8L * (reached.length + filled.length) + 4L * (head.length + entries.length);
    }
}
