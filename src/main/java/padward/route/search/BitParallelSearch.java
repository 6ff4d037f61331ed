package padward.route.search;

import java.util.Optional;
import padward.base.Progress;
import padward.fabric.pattern.BitsetAdjacency;
import padward.fabric.pattern.PatternFabric;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBoundTable;
import padward.route.bound.TileMoves;
import padward.route.bound.TileSearch;
import padward.route.cost.SmallCost;

/**
 * The bit-parallel search over a pattern fabric. All of a vertex's edges into one tile at one delay
 * are taken at once: one mask drops the targets that are closed or settled, and only the others are
 * looked at. This is the inner loop of the program; it trades brevity for speed.
 */
final class BitParallelSearch extends IntSearch {
    private final BitsetAdjacency edges;
    private final int[] vertexBase;
    private final int[] tileOfBlock;
    private final int[] firstRow;
    private final int[] groupSpan;
    private final long[] groups;
    private final int[] cost;
    private final long[] done;
    private final BitParallelDijkstra sweep;
    private final PatternFabric pattern;
    private int[] delayPs;

    /** Made when a question first needs it, and in use for the present one only if it does. */
    private TileSearch tileSearch;

    BitParallelSearch(PatternFabric fabric, SearchListener listener, int sharpenAfter) {
        super(fabric, listener, sharpenAfter);
        pattern = fabric;
        edges = fabric.maskedEdges();
        vertexBase = edges.vertexBase;
        tileOfBlock = edges.tileOfBlock;
        firstRow = edges.firstRow;
        groupSpan = edges.groupSpan;
        groups = edges.groups;
        cost = state.cost;
        done = state.done;
        sweep = new BitParallelDijkstra(edges, state);
    }

    @Override
    void prepare() {
        delayPs = edges.delayPs(corner);
    }

    @Override
    boolean beginSharpening(SearchSources sources, int target, Progress progress) {
        if (table == LowerBoundTable.Aim.NONE || costs.countsStretches()) {
            return false;
        }
        Optional<TileMoves> moves = FabricIndex.of(pattern).tileMoves(corner, progress);
        if (moves.isPresent()) {
            if (tileSearch == null) {
                tileSearch = new TileSearch(pattern);
            }
            tileSearch.begin(moves.get(), corner, costs, sources.toVertices(), target);
        }
        return moves.isPresent();
    }

    @Override
    boolean isSharper(Progress progress) {
        return tileSearch.meetsNet(progress);
    }

    @Override
    int sharpened(int vertex, int enough, Progress progress) {
        int tile = edges.tile(vertex);
        return tileSearch.sharpened(vertex, tile, edges.row(tile, vertex), enough, progress);
    }

    @Override
    End sweepAll(int[] starts, int[] startCosts, Progress progress) {
        if (costs.countsStretches()) {
            StretchSweep stretches = new StretchSweep(sweep);
            End end = stretches.run(starts, startCosts, corner, costs, progress);
            settled = stretches.settled();
            return end;
        }
        End end = sweep.run(starts, startCosts, corner, costs, progress);
        settled = sweep.settled();
        return end;
    }

    @Override
    long bytes() {
        return super.bytes() + sweep.bytes() + (tileSearch == null ? 0 : tileSearch.bytes());
    }

    @Override
    void expand(int vertex) {
        int sofar = cost[vertex];
        int tile = tileOfBlock[vertex >>> BitsetAdjacency.BLOCK_BITS];
        while (vertexBase[tile + 1] <= vertex) {
            tile++;
        }
        int span = groupSpan[firstRow[tile] + vertex - vertexBase[tile]];
        int group = span >>> BitsetAdjacency.SPAN_BITS;
        int end = group + (span & BitsetAdjacency.SPAN_MASK);
        boolean guided = table != LowerBoundTable.Aim.NONE;
        boolean plain = costs.isDelayOnly();
        for (; group < end; group++) {
            long where = groups[2 * group + 1];
            int toTile = tile + BitsetAdjacency.step(where);
            int base = vertexBase[toTile] + BitsetAdjacency.local(where);
            long open = groups[2 * group] & ~window(done, base);
            if (open == 0) {
                continue;
            }
            int delay = delayPs[group];
            int cell = guided ? table.cell(toTile) : 0;
            int place = firstRow[toTile] + BitsetAdjacency.local(where);
            do {
                int bit = Long.numberOfTrailingZeros(open);
                open &= open - 1;
                int to = base + bit;
                int known = cost[to];
                if (sofar + delay >= known) {
                    // A price can only add to it: no need to look one up.
                    continue;
                }
                int sum = sofar + (plain ? delay : costs.openStep(vertex, to, delay));
                if (sum < known) {
                    int ahead = ahead(to, place + bit, cell);
                    if (sharp && ahead != SmallCost.CLOSED) {
                        ahead = Math.max(ahead, tileSearch.at(to, toTile, place + bit));
                    }
                    improve(to, sum, ahead);
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

    private int ahead(int to, int place, int cell) {
        if (table == LowerBoundTable.Aim.NONE) {
            return ahead(to);
        }
        int delay = table.at(place, cell);
        return delay == SmallCost.CLOSED || perimeter == PerimeterBound.NONE
                ? delay
                : delay + stretchesAhead(to);
    }
}
