package padward.route;

import padward.base.Progress;
import padward.fabric.MaskedEdges;
import padward.fabric.PatternFabric;

/**
 * The quick search over a pattern fabric. All of a vertex's edges into one tile at one delay are
 * taken at once: one mask drops the targets that are closed or settled, and only the others are
 * looked at. This is the inner loop of the program; it trades brevity for speed.
 */
final class MaskSearch extends IntSearch {
    private final MaskedEdges edges;
    private final int[] vertexBase;
    private final int[] tileOfBlock;
    private final int[] firstRow;
    private final int[] groupSpan;
    private final long[] groups;
    private final int[] cost;
    private final long[] done;
    private final BucketQueue queue;
    private final MaskSweep sweep;
    private int[] delayPs;

    MaskSearch(PatternFabric fabric) {
        super(fabric);
        edges = fabric.maskedEdges();
        vertexBase = edges.vertexBase;
        tileOfBlock = edges.tileOfBlock;
        firstRow = edges.firstRow;
        groupSpan = edges.groupSpan;
        groups = edges.groups;
        cost = state.cost;
        done = state.done;
        queue = state.queue;
        sweep = new MaskSweep(edges, state);
    }

    @Override
    void prepare() {
        delayPs = edges.delayPs(corner);
    }

    @Override
    End sweepAll(int[] starts, int[] startCosts, Progress progress) {
        return costs.priced == null
                ? sweep.run(starts, startCosts, edges.delayPs(corner), costs.congested, progress)
                : End.TOO_COSTLY;
    }

    @Override
    int settled() {
        return sweeping ? Math.max(sweep.settled(), super.settled()) : super.settled();
    }

    @Override
    long bytes() {
        return super.bytes() + sweep.bytes();
    }

    @Override
    void expand(int vertex, int sofar) {
        int tile = tileOfBlock[vertex >>> MaskedEdges.BLOCK_BITS];
        while (vertexBase[tile + 1] <= vertex) {
            tile++;
        }
        int span = groupSpan[firstRow[tile] + vertex - vertexBase[tile]];
        int group = span >>> MaskedEdges.SPAN_BITS;
        int end = group + (span & MaskedEdges.SPAN_MASK);
        boolean plain = costs.congested == null && costs.priced == null;
        for (; group < end; group++) {
            long where = groups[2 * group + 1];
            int toTile = tile + MaskedEdges.step(where);
            int base = vertexBase[toTile] + MaskedEdges.local(where);
            long open = groups[2 * group] & ~window(done, base);
            if (open == 0) {
                continue;
            }
            int reached = sofar + delayPs[group];
            int cell = aim == null ? 0 : aim.cell(toTile);
            int place = firstRow[toTile] + MaskedEdges.local(where);
            do {
                int bit = Long.numberOfTrailingZeros(open);
                open &= open - 1;
                int to = base + bit;
                int sum = plain ? reached : priced(vertex, to, sofar, delayPs[group]);
                if (sum < cost[to]) {
                    offer(to, sum, place + bit, cell);
                }
            } while (open != 0);
        }
    }

    /** The bits of 64 vertices from one on. */
    private static long window(long[] bits, int vertex) {
        int word = vertex >>> 6;
        // Shifts count modulo 64, so a shift by 64 has to be made in two.
        return bits[word] >>> vertex | bits[word + 1] << 1 << (~vertex & 63);
    }

    private int priced(int from, int to, int sofar, int delay) {
        int step = delay;
        if (costs.congested != null) {
            step = (int) Math.min(IntCosts.MOST, costs.congested.price(to, delay));
        }
        if (costs.priced != null && costs.priced.isPriced(from, to)) {
            step += IntCosts.STRETCH;
        }
        return sofar + step;
    }

    private void offer(int to, int sum, int place, int cell) {
        int ahead = aim == null ? ahead(to) : aim.at(place, cell);
        if (ahead == IntCosts.CLOSED) {
            return;
        }
        if (aim != null && floor != null) {
            ahead += stretchesAhead(to);
        }
        if (cost[to] == SearchState.UNSEEN) {
            state.touch(to);
        }
        cost[to] = sum;
        queue.push(to, sum + ahead);
    }
}
