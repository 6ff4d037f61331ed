package padward.route;

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
    private final int[] groupStart;
    private final int[] step;
    private final int[] local;
    private final boolean[] leaf;
    private final long[] mask;
    private final int[] cost;
    private final long[] done;
    private final BucketQueue queue;
    private int[] delayPs;

    MaskSearch(PatternFabric fabric) {
        super(fabric);
        edges = fabric.maskedEdges();
        vertexBase = edges.vertexBase;
        tileOfBlock = edges.tileOfBlock;
        firstRow = edges.firstRow;
        groupStart = edges.groupStart;
        step = edges.step;
        local = edges.local;
        leaf = edges.leaf;
        mask = edges.mask;
        cost = state.cost;
        done = state.done;
        queue = state.queue;
    }

    @Override
    void prepare() {
        delayPs = edges.delayPs(corner);
    }

    @Override
    void expand(int vertex, int sofar) {
        int tile = tileOfBlock[vertex >>> MaskedEdges.BLOCK_BITS];
        while (vertexBase[tile + 1] <= vertex) {
            tile++;
        }
        int row = firstRow[tile] + vertex - vertexBase[tile];
        int end = groupStart[row + 1];
        boolean plain = costs.congested == null && costs.priced == null;
        if (plain && sweeping) {
            sweepGroups(tile, groupStart[row], end, sofar);
            return;
        }
        for (int group = groupStart[row]; group < end; group++) {
            int toTile = tile + step[group];
            int base = vertexBase[toTile] + local[group];
            long open = mask[group] & ~doneFrom(base);
            if (open == 0) {
                continue;
            }
            int reached = sofar + delayPs[group];
            int cell = aim == null ? 0 : aim.cell(toTile);
            int place = firstRow[toTile] + local[group];
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

    /**
     * The same without bounds and prices: a vertex's bound need not be known, leaves not queued.
     */
    private void sweepGroups(int tile, int from, int end, int sofar) {
        for (int group = from; group < end; group++) {
            int base = vertexBase[tile + step[group]] + local[group];
            long open = mask[group] & ~doneFrom(base);
            int sum = sofar + delayPs[group];
            while (open != 0) {
                int to = base + Long.numberOfTrailingZeros(open);
                open &= open - 1;
                int before = cost[to];
                if (sum < before) {
                    if (before == SearchState.UNSEEN) {
                        state.touch(to);
                    }
                    cost[to] = sum;
                    if (!leaf[group]) {
                        queue.push(to, sum);
                    }
                }
            }
        }
    }

    /** The bits of 64 vertices from one on. */
    private long doneFrom(int vertex) {
        int word = vertex >>> 6;
        // Shifts count modulo 64, so a shift by 64 has to be made in two.
        return done[word] >>> vertex | done[word + 1] << 1 << (~vertex & 63);
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
