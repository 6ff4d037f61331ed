package padward.route.search;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import padward.base.Progress;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.BitsetAdjacency;
import padward.route.cost.SmallCost;

/**
 * The sweep of {@link BitParallelDijkstra} where each stretch that an occupant uses has its price,
 * {@link SmallCost#STRETCH}: level by level, a level being what is reached over the same number of
 * stretches. What a priced step reaches waits for the next level. It was put aside in the order of
 * the costs from which it was reached, and goes into the ring when the next level comes to these:
 * never too early for the ring, which holds one step's time, and never too late.
 *
 * <p>What can be dropped by a mask is less than there: a vertex with an occupant that was reached
 * at a price can still be reached without one, from the same occupant. So there are two masks: what
 * was reached without a price, and what was reached at all; the second is for steps from where
 * there is no occupant, all of which into an occupant are priced.
 *
 * <p>Written out in one method for the same reason as there, what goes into the ring twice.
 *
 * <p>Serves one run. O(V / 8) in addition to what the other sweep has, and 8 bytes for each vertex
 * that waits.
 */
final class StretchSweep {
    private static final int RING = BitParallelDijkstra.RING;
    private static final int NONE = BitParallelDijkstra.NONE;
    private static final int POPS_BETWEEN_CHECKS = 1 << 14;

    private final BitParallelDijkstra plain;
    private final BitsetAdjacency edges;
    private final TileBlocks blocks;
    private final SearchState state;
    private int settled;

    /** What waits for the next level: pairs of a tile with local number, and the cost there. */
    private IntArrayList later = new IntArrayList();

    /** Pairs: a cost of the next level, and how long {@link #later} was before it came to that. */
    private IntArrayList laterFrom = new IntArrayList();

    /** The same for this level, of which so much has gone into the ring. */
    private IntArrayList waiting = new IntArrayList();

    private IntArrayList waitingFrom = new IntArrayList();
    private int nextWaiting;

    StretchSweep(BitParallelDijkstra plain) {
        this.plain = plain;
        edges = plain.edges;
        blocks = plain.blocks;
        state = plain.state;
    }

    int settled() {
        return settled;
    }

    /**
     * Sweeps from the vertices whose costs are set in the state.
     *
     * @return how it ended; {@link IntSearch.End#TOO_EXPENSIVE} when occupants are not known
     *     beforehand, or steps, starts or costs are too long, and the state must be set up again
     */
    IntSearch.End run(
            int[] starts, int[] startCosts, Corner corner, SmallCost model, Progress progress) {
        int[] occupants = model.occupants();
        if (occupants.length == 0 || !plain.begin(starts, startCosts, corner)) {
            return IntSearch.End.TOO_EXPENSIVE;
        }
        int first = BitParallelDijkstra.least(startCosts);
        return loop(first, 2 * starts.length, corner, occupants, progress);
    }

    private long[] usedBits(int[] occupants) {
        long[] result = new long[state.done.length];
        for (int vertex = 0; vertex < occupants.length; vertex++) {
            if (occupants[vertex] != SmallCost.NO_OCCUPANT) {
                result[vertex >>> 6] |= 1L << vertex;
            }
        }
        return result;
    }

    private IntSearch.End loop(
            int first, int firstUnused, Corner corner, int[] occupants, Progress progress) {
        int[] delayPs = plain.blockDelays[corner.ordinal()];
        int[] slowestPs = plain.slowestDelays[corner.ordinal()];
        int[] vertexBase = edges.vertexBase;
        int[] firstRow = edges.firstRow;
        int[] span = blocks.span;
        long[] words = blocks.words;
        int[] cost = state.cost;
        long[] done = state.done;
        long[] used = usedBits(occupants);
        long[] unpriced = done.clone();
        long[] seen = done.clone();
        int[] ring = plain.head;
        long[] some = plain.filled;
        int[] queue = plain.entries;
        int bits = plain.localBits;
        int localMask = (1 << bits) - 1;
        int unused = firstUnused;
        int free = NONE;
        int current = first;
        int levelEnd = SmallCost.STRETCH;
        int pops = 0;
        while (true) {
            int bucket = current & (RING - 1);
            int entry = ring[bucket];
            if (entry == NONE) {
                some[bucket >>> 6] &= ~(1L << bucket);
                int ahead = BitParallelDijkstra.ahead(some, bucket);
                int next = ahead < 0 ? Integer.MAX_VALUE : current + ahead;
                if (next == Integer.MAX_VALUE && !isWaiting()) {
                    if (later.isEmpty()) {
                        settled = pops;
                        return IntSearch.End.UNREACHABLE;
                    }
                    startLevel();
                    levelEnd += SmallCost.STRETCH;
                }
                int due = isWaiting() ? waitingFrom.getInt(nextWaiting) : Integer.MAX_VALUE;
                current = Math.min(next, due);
                if (current >= levelEnd || current >= SmallCost.LARGEST) {
                    return IntSearch.End.TOO_EXPENSIVE;
                }
                if (due != current) {
                    continue;
                }
                int from = waitingFrom.getInt(nextWaiting + 1);
                nextWaiting += 2;
                int to = isWaiting() ? waitingFrom.getInt(nextWaiting + 1) : waiting.size();
                for (int i = from; i < to; i += 2) {
                    int item = waiting.getInt(i);
                    int key = waiting.getInt(i + 1);
                    if (cost[vertexBase[item >>> bits] + (item & localMask)] != key) {
                        // It was reached at less since.
                        continue;
                    }
                    int added = free;
                    if (added == NONE) {
                        added = unused;
                        unused += 2;
                        if (unused > queue.length) {
                            queue = Arrays.copyOf(queue, queue.length * 2);
                            plain.entries = queue;
                        }
                    } else {
                        free = queue[added + 1];
                    }
                    int slot = key & (RING - 1);
                    queue[added] = item;
                    queue[added + 1] = ring[slot];
                    ring[slot] = added;
                    some[slot >>> 6] |= 1L << slot;
                }
                continue;
            }
            int item = queue[entry];
            ring[bucket] = queue[entry + 1];
            queue[entry + 1] = free;
            free = entry;
            int tile = item >>> bits;
            int own = item & localMask;
            int vertex = vertexBase[tile] + own;
            if (cost[vertex] != current) {
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
            int occupant = occupants[vertex];
            long[] dropped = occupant == SmallCost.NO_OCCUPANT ? seen : unpriced;
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
                int across = ~base & 63;
                long[] blocked = fixed < 0 ? dropped : done;
                // Shifts count modulo 64, so a shift by 64 has to be made in two.
                long open =
                        words[2 * block + 1]
                                & ~(blocked[word] >>> base | blocked[word + 1] << 1 << across);
                if (open == 0) {
                    continue;
                }
                seen[word] |= open << base;
                seen[word + 1] |= open >>> 1 >>> across;
                long withOccupant = used[word] >>> base | used[word + 1] << 1 << across;
                long atNoPrice = open;
                int row = firstRow[toTile] + low;
                int place = toTile << bits | low;
                do {
                    int bit = Long.numberOfTrailingZeros(open);
                    open &= open - 1;
                    int to = base + bit;
                    int slowest = slowestPs[row + bit];
                    int sum = current + (fixed < 0 ? slowest ^ slowest >> 31 : fixed);
                    boolean priced = (withOccupant >>> bit & 1) != 0 && occupants[to] != occupant;
                    if (priced) {
                        atNoPrice &= ~(1L << bit);
                        sum += SmallCost.STRETCH;
                    }
                    if (sum >= cost[to]) {
                        continue;
                    }
                    cost[to] = sum;
                    if (slowest < 0) {
                        continue;
                    }
                    if (priced) {
                        putAside(place + bit, sum, current + SmallCost.STRETCH);
                        continue;
                    }
                    int added = free;
                    if (added == NONE) {
                        added = unused;
                        unused += 2;
                        if (unused > queue.length) {
                            queue = Arrays.copyOf(queue, queue.length * 2);
                            plain.entries = queue;
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
                unpriced[word] |= atNoPrice << base;
                unpriced[word + 1] |= atNoPrice >>> 1 >>> across;
            }
        }
    }

    private void putAside(int item, int key, int from) {
        if (laterFrom.isEmpty() || laterFrom.getInt(laterFrom.size() - 2) != from) {
            laterFrom.add(from);
            laterFrom.add(later.size());
        }
        later.add(item);
        later.add(key);
    }

    private boolean isWaiting() {
        return nextWaiting < waitingFrom.size();
    }

    private void startLevel() {
        IntArrayList items = waiting;
        waiting = later;
        later = items;
        later.clear();
        IntArrayList costs = waitingFrom;
        waitingFrom = laterFrom;
        laterFrom = costs;
        laterFrom.clear();
        nextWaiting = 0;
    }
}
