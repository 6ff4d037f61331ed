package padward.route.search;

import java.util.Arrays;
import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.BitsetAdjacency;
import padward.route.cost.SmallCost;

/**
 * Dijkstra's search from some sources to all vertices of a pattern fabric, bit-parallel: the loop
 * of {@link IntSearch} and the queue of {@link BucketQueue} written out in one method, so that
 * everything it touches stays in registers. Vertices come in the order of their costs, so what an
 * edge has reached once can only be improved on by an edge with less delay than the slowest into
 * it; most targets are dropped by a mask for that reason, a whole {@linkplain TileBlocks block} at
 * a time. Vertices from which nothing leads on are not queued; their costs are final when the sweep
 * is.
 *
 * <p>A queue entry is a tile and a local number, which are known when it is put in and would have
 * to be looked up when it comes out.
 *
 * <p>Steps must be shorter than the ring: a sweep that meets a longer one ends there, and the
 * search that called it goes on with its own loop.
 */
final class BitParallelDijkstra {
    static final int RING = 8192;
    static final int NONE = -1;
    private static final int POPS_BETWEEN_CHECKS = 1 << 14;

    final BitsetAdjacency edges;
    final TileBlocks blocks;
    final SearchState state;
    private final long[] reached;
    final int[] head = new int[RING];

    /** Buckets that are not empty, and some that have become empty. */
    final long[] filled = new long[RING / Long.SIZE];

    /** Pairs: a tile and local number, and the next entry of its bucket or of the free list. */
    int[] entries = new int[1 << 12];

    /** By corner, {@link TileBlocks#delayPs} and {@link TileBlocks#slowestPs}. */
    final int[][] blockDelays = new int[Corner.values().length][];

    final int[][] slowestDelays = new int[Corner.values().length][];

    /** How many low bits of an entry are the local number. */
    final int localBits;

    private int settled;

    BitParallelDijkstra(BitsetAdjacency edges, SearchState state) {
        this.edges = edges;
        this.blocks = new TileBlocks(edges);
        this.state = state;
        this.reached = new long[state.done.length];
        for (Corner corner : Corner.values()) {
            blockDelays[corner.ordinal()] = blocks.delayPs(corner);
            slowestDelays[corner.ordinal()] = blocks.slowestPs(corner);
        }
        int most = 1;
        for (int tile : edges.sampleTiles()) {
            most = Math.max(most, edges.vertexBase[tile + 1] - edges.vertexBase[tile]);
        }
        localBits = Integer.SIZE - Integer.numberOfLeadingZeros(most - 1);
    }

    int settled() {
        return settled;
    }

    /**
     * Sweeps from the vertices whose costs are set in the state.
     *
     * @return how it ended; {@link IntSearch.End#TOO_EXPENSIVE} when a step or a start is too long
     *     for the ring, and the state must be set up again
     */
    IntSearch.End run(int[] starts, int[] startCosts, Corner corner, SmallCost model, Progress p) {
        if (!begin(starts, startCosts, corner)) {
            return IntSearch.End.TOO_EXPENSIVE;
        }
        System.arraycopy(state.done, 0, reached, 0, reached.length);
        settled = 0;
        return loop(least(startCosts), 2 * starts.length, corner, model, p);
    }

    static int least(int[] startCosts) {
        return Arrays.stream(startCosts).min().orElse(0);
    }

    /**
     * Puts the starts into the ring, as entries 0 to twice their number.
     *
     * @return false when a step or a start is too long for the ring
     */
    boolean begin(int[] starts, int[] startCosts, Corner corner) {
        int last = Arrays.stream(startCosts).max().orElse(0);
        boolean longSteps = Arrays.stream(edges.delayPs(corner)).anyMatch(d -> d >= RING);
        int tiles = edges.firstRow.length;
        if (last - least(startCosts) >= RING
                || longSteps
                || tiles > Integer.MIN_VALUE >>> localBits) {
            return false;
        }
        state.touchAll();
        Arrays.fill(head, NONE);
        Arrays.fill(filled, 0);
        while (entries.length < 2 * starts.length) {
            entries = new int[entries.length * 2];
        }
        for (int i = 0; i < starts.length; i++) {
            int bucket = startCosts[i] & (RING - 1);
            int tile = edges.tile(starts[i]);
            entries[2 * i] = tile << localBits | starts[i] - edges.vertexBase[tile];
            entries[2 * i + 1] = head[bucket];
            head[bucket] = 2 * i;
            filled[bucket >>> 6] |= 1L << bucket;
        }
        return true;
    }

    private IntSearch.End loop(
            int first, int firstUnused, Corner corner, SmallCost model, Progress progress) {
        int[] delayPs = blockDelays[corner.ordinal()];
        int[] slowestPs = slowestDelays[corner.ordinal()];
        int[] vertexBase = edges.vertexBase;
        int[] firstRow = edges.firstRow;
        int[] span = blocks.span;
        long[] words = blocks.words;
        int[] cost = state.cost;
        long[] done = state.done;
        long[] seen = reached;
        int[] ring = head;
        long[] some = filled;
        int[] queue = entries;
        int[] history = model.historyPs();
        int[] factors = model.presentFactor();
        boolean priced = history.length > 0;
        // Where nothing is overused all factors are 1: then they need not be looked up one by one.
        boolean multiplied = !areOnes(factors);
        int bits = localBits;
        int localMask = (1 << bits) - 1;
        int unused = firstUnused;
        int free = NONE;
        int current = first;
        int pops = 0;
        while (true) {
            int bucket = current & (RING - 1);
            int entry = ring[bucket];
            if (entry == NONE) {
                some[bucket >>> 6] &= ~(1L << bucket);
                int ahead = ahead(some, bucket);
                if (ahead < 0) {
                    settled = pops;
                    return IntSearch.End.UNREACHABLE;
                }
                current += ahead;
                if (current >= SmallCost.LARGEST) {
                    return IntSearch.End.TOO_EXPENSIVE;
                }
                continue;
            }
            int item = queue[entry];
            ring[bucket] = queue[entry + 1];
            queue[entry + 1] = free;
            free = entry;
            int tile = item >>> bits;
            int own = item & localMask;
            if (cost[vertexBase[tile] + own] != current) {
                // A stale entry: the vertex was settled at less.
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
            int run = span[firstRow[tile] + own];
            int block = run >>> TileBlocks.COUNT_BITS;
            int end = block + (run & TileBlocks.COUNT_MASK);
            for (; block < end; block++) {
                long where = words[2 * block];
                int fixed = delayPs[block];
                int toTile = tile + TileBlocks.step(where);
                int low = TileBlocks.local(where);
                int base = vertexBase[toTile] + low;
                int word = base >>> 6;
                long[] blocked = fixed < 0 ? seen : done;
                // Shifts count modulo 64, so a shift by 64 has to be made in two.
                long window = blocked[word] >>> base | blocked[word + 1] << 1 << (~base & 63);
                long open = words[2 * block + 1] & ~window;
                if (open == 0) {
                    continue;
                }
                seen[word] |= open << base;
                seen[word + 1] |= open >>> 1 >>> (~base & 63);
                int row = firstRow[toTile] + low;
                int place = toTile << bits | low;
                do {
                    int bit = Long.numberOfTrailingZeros(open);
                    open &= open - 1;
                    int to = base + bit;
                    int slowest = slowestPs[row + bit];
                    int step = fixed < 0 ? slowest ^ slowest >> 31 : fixed;
                    int known = cost[to];
                    if (current + step >= known) {
                        // A price can only add to it: no need to look one up.
                        continue;
                    }
                    if (priced) {
                        long product = (long) step + history[to];
                        if (multiplied) {
                            product *= factors[to];
                        }
                        if (product >= RING) {
                            return IntSearch.End.TOO_EXPENSIVE;
                        }
                        step = (int) product;
                        if (current + step >= known) {
                            continue;
                        }
                    }
                    int sum = current + step;
                    cost[to] = sum;
                    if (slowest < 0) {
                        continue;
                    }
                    int added = free;
                    if (added == NONE) {
                        added = unused;
                        unused += 2;
                        if (unused > queue.length) {
                            queue = Arrays.copyOf(queue, queue.length * 2);
                            entries = queue;
                        }
                    } else {
                        free = queue[added + 1];
                    }
                    int slot = sum & (RING - 1);
                    queue[added] = place + bit;
                    queue[added + 1] = ring[slot];
                    ring[slot] = added;
                    some[slot >>> 6] |= 1L << slot;
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

    /** How many buckets ahead the next one is that is not empty; negative when there is none. */
    static int ahead(long[] filled, int bucket) {
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

    /** Bytes of the arrays. */
    long bytes() {
        return 8L * (reached.length + filled.length)
                + 4L * (head.length + entries.length)
                + blocks.bytes()
                + 8L * (blockDelays[0].length + slowestDelays[0].length);
    }
}
