package padward.route.bound;

import it.unimi.dsi.fastutil.Hash;
import it.unimi.dsi.fastutil.HashCommon;
import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntIterator;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.Arrays;
import java.util.BitSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.route.cost.BlockedVertices;
import padward.route.cost.SmallCost;
import padward.route.queue.BucketQueue;

/**
 * A lower bound under the present occupancy and its prices, from a search backwards from the goal
 * on a coarser fabric: all wires that can be left in one tile count as one node where most wires of
 * that tile are open, and each for itself where most are used. Where much is open one wire is as
 * good as another; where little is, it matters which.
 *
 * <p><b>Why it is admissible and consistent.</b> Each edge from u to v of the fabric that may be
 * used is an edge between their nodes at the same cost or less: u ends where v begins; if that tile
 * is merged, the edge costs what v costs at the least when it is entered from any wire that ends
 * there, through pins or not. So least costs on the nodes are a consistent bound. A pin in a merged
 * tile has the tile's cost less the least delay from a wire to the pin. What the search has not
 * come to yet, when its least key is F, costs at least F less the least cost from the net to there
 * on the empty fabric, which is a difference of consistent bounds and the least of two consistent
 * ones.
 *
 * <p>The search goes on only as far as it is asked, guided by the net's distance; like that of
 * Silver, "Cooperative pathfinding" (AIIDE 2005), but with a bound that may be used before it is
 * exact. Nothing is kept from one question to the next but arrays. Belongs to one thread.
 */
public final class TileSearch {
    /** No route leads on. */
    public static final int NO_ROUTE = SmallCost.CLOSED;

    /** A tile is merged when at least so many of a hundred wires that begin there are open. */
    private static final int OPEN_PERCENT = 40;

    /** When the search goes on, then by at least this, so that it is not asked for each vertex. */
    private static final int AT_LEAST_PS = 32;

    /**
     * How many nodes are settled for a vertex of the search from the net, at most. A node takes
     * some five times as long as a vertex.
     */
    private static final int NODES_A_VERTEX = 4;

    private static final int UNSEEN = Integer.MAX_VALUE;
    private static final int STEPS_BETWEEN_CHECKS = 1 << 12;
    private static final int MOST_KEPT = 1 << 16;

    private static final byte MERGED = 1;
    private static final byte SINGLE = 2;

    private final PatternFabric fabric;
    private final EdgeCursor into;
    private final BucketQueue queue = new BucketQueue();

    /** For each tile the least cost so far, its complement when it is final. */
    private final int[] ofTile;

    /**
     * For each tile whether it is merged, or 0; kept as long as questions share a set of closed
     * vertices. Either is sound, so what a single question frees or closes does not matter here.
     */
    private final byte[] sort;

    /** The goal's tile, never merged, and what it is for other questions. */
    private int singled;

    private byte singledSort;
    private final IntArrayList touched = new IntArrayList();

    /** The same for wires that count for themselves. */
    private Int2IntOpenHashMap ofVertex = newMap();

    /** Closed vertices, as a copy whose members differ from a shared set by those of a few. */
    private final long[] closed;

    private BitSet sharedSource = new BitSet();
    private BlockedVertices blocked = BlockedVertices.NONE;

    /** Where the net begins counts as open here, as a start may be left though it is closed. */
    private final IntArrayList closedSources = new IntArrayList();

    private TileMoves moves;
    private int[] info;
    private SmallCost costs;
    private Corner corner;
    private int goal;

    /** The least delay from the net to each column, and to each row. */
    private final int[] toColumn;

    private final int[] toRow;

    /** Nodes of the net's starts, and whether the search has come to one of them. */
    private final IntOpenHashSet net = new IntOpenHashSet();

    private boolean hasMet;

    /** How many nodes may be settled yet for what was asked. */
    private int nodesLeft;

    private boolean leftOut;
    private int settled;

    /** A search over one fabric, to be used again and again. O(V / 8). */
    public TileSearch(PatternFabric fabric) {
        this.fabric = fabric;
        into = fabric.edgesIn();
        ofTile = new int[fabric.tileCount()];
        Arrays.fill(ofTile, UNSEEN);
        sort = new byte[fabric.tileCount()];
        closed = new long[(fabric.vertexCount() + 63) / 64 + 1];
        toColumn = new int[fabric.columns()];
        toRow = new int[fabric.rows()];
    }

    private static Int2IntOpenHashMap newMap() {
        Int2IntOpenHashMap map = new Int2IntOpenHashMap();
        map.defaultReturnValue(UNSEEN);
        return map;
    }

    /** Begins with a question; nothing is searched yet. */
    public void begin(TileMoves tileMoves, Corner at, SmallCost model, int[] sources, int target) {
        moves = tileMoves;
        info = moves.info;
        corner = at;
        costs = model;
        goal = target;
        leftOut = false;
        settled = 0;
        forget();
        sort[singled] = singledSort;
        close(model.closed(), sources);
        setDistances(sources);
        int tile = moves.rows.tile(goal);
        singled = tile;
        singledSort = sort[tile];
        sort[tile] = SINGLE;
        int row = moves.rows.row(tile, goal);
        int first = fromNet(tile) + (moves.enterPs[row] == TileMoves.NEVER ? 0 : inside(row));
        queue.clear(first);
        ofVertex.put(goal, 0);
        queue.push(~goal, first);
        net.clear();
        for (int source : sources) {
            int begins = moves.rows.tile(source);
            // Where the net begins need not be entered from any wire.
            int step = moves.anyStep(moves.rows.row(begins, source));
            int head = step == TileMoves.NO_HEAD ? begins : begins + step;
            net.add(isMerged(head) ? head : ~source);
        }
        hasMet = false;
        nodesLeft = 0;
    }

    private void forget() {
        for (int i = 0; i < touched.size(); i++) {
            ofTile[touched.getInt(i)] = UNSEEN;
        }
        touched.clear();
        if (ofVertex.size() > MOST_KEPT) {
            ofVertex = newMap();
        } else {
            ofVertex.clear();
        }
    }

    /** Closes what a question closes; O(different) where the shared set is that of before. */
    private void close(BlockedVertices now, int[] sources) {
        closedSources.forEach(this::flip);
        closedSources.clear();
        if (now.base() == sharedSource) {
            flip(blocked);
        } else {
            sharedSource = now.base();
            Arrays.fill(closed, 0);
            Arrays.fill(sort, (byte) 0);
            long[] words = sharedSource.toLongArray();
            System.arraycopy(words, 0, closed, 0, Math.min(words.length, closed.length));
        }
        blocked = now;
        flip(now);
        for (int source : sources) {
            if (isClosed(source)) {
                closedSources.add(source);
                flip(source);
            }
        }
    }

    private void flip(BlockedVertices vertices) {
        for (IntIterator i = vertices.different().iterator(); i.hasNext(); ) {
            flip(i.nextInt());
        }
    }

    private void flip(int vertex) {
        closed[vertex >>> 6] ^= 1L << vertex;
    }

    private void setDistances(int[] sources) {
        BitSet columns = new BitSet();
        BitSet rows = new BitSet();
        for (int source : sources) {
            int where = info[TileMoves.INFO * moves.rows.tile(source) + TileMoves.WHERE];
            columns.set(where & 0xffff);
            rows.set(where >>> 16);
        }
        least(toColumn, columns, moves.alongColumns);
        least(toRow, rows, moves.alongRows);
    }

    private static void least(int[] result, BitSet from, int[] along) {
        Arrays.fill(result, UNSEEN);
        for (int s = from.nextSetBit(0); s >= 0; s = from.nextSetBit(s + 1)) {
            for (int i = 0; i < result.length; i++) {
                result[i] = Math.min(result[i], along[i - s + result.length - 1]);
            }
        }
    }

    private int fromNet(int tile) {
        int where = info[TileMoves.INFO * tile + TileMoves.WHERE];
        return toColumn[where & 0xffff] + toRow[where >>> 16];
    }

    private boolean isMerged(int tile) {
        byte known = sort[tile];
        return (known == 0 ? sortOf(tile) : known) == MERGED;
    }

    private byte sortOf(int tile) {
        int begin = info[TileMoves.INFO * tile];
        int count = moves.wires[info[TileMoves.INFO * tile + TileMoves.TEMPLATE]];
        int open = 0;
        for (int i = 0; i < count; i += Long.SIZE) {
            open += Long.bitCount(open(begin + i, Math.min(Long.SIZE, count - i)));
        }
        sort[tile] = open * 100 >= count * OPEN_PERCENT ? MERGED : SINGLE;
        return sort[tile];
    }

    /** The open ones of some vertices from one on, at most 64, as bits. */
    private long open(int vertex, int count) {
        int word = vertex >>> 6;
        long bits = closed[word] >>> vertex | closed[word + 1] << 1 << (~vertex & 63);
        return ~bits & -1L >>> -count;
    }

    private boolean isClosed(int vertex) {
        return (closed[vertex >>> 6] & 1L << vertex) != 0;
    }

    /**
     * The bound at a vertex as far as it is known, {@link #NO_ROUTE} when no route leads on.
     *
     * @param vertex any vertex that is not closed
     * @param tile where it begins
     * @param row its row of the masked edges
     */
    public int at(int vertex, int tile, int row) {
        int step = moves.headStep[row];
        if (step == TileMoves.NO_HEAD) {
            return atNoHead(vertex, row);
        }
        int head = tile + step;
        boolean merged = isMerged(head);
        int cost = merged ? ofTile[head] : ofVertex.get(vertex);
        int inside = inside(row);
        if (cost < 0) {
            return Math.max(0, ~cost - (merged ? inside : 0));
        }
        if (!queue.isEmpty()) {
            return Math.max(0, queue.current() - fromNet(head) - inside);
        }
        return leftOut ? 0 : NO_ROUTE;
    }

    /** The least delay from a wire that ends in a pin's tile to the pin; 0 for a wire. */
    private int inside(int row) {
        return moves.isWireRow[row] ? 0 : moves.enterPs[row];
    }

    /** Nothing leads on from there, except from what only a net's own start can be. */
    private int atNoHead(int vertex, int row) {
        return vertex == goal || moves.enterPs[row] == TileMoves.NEVER ? 0 : NO_ROUTE;
    }

    /**
     * Goes on until it comes to the net, by a few nodes for each vertex that the search from the
     * net settles meanwhile. Before, the bound is worth little.
     *
     * @return whether the bound is of use now
     * @throws CancellationException when {@code progress} says so
     */
    public boolean meetsNet(Progress progress) {
        for (int i = 0; i < NODES_A_VERTEX && !hasMet && !queue.isEmpty(); i++) {
            hasMet |= net.contains(step(progress));
        }
        return hasMet || queue.isEmpty();
    }

    /**
     * The bound at a vertex: the search goes on until it is exact or more than so much, but in all
     * by no more than a few nodes for each time that this was asked.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public int sharpened(int vertex, int tile, int row, int enough, Progress progress) {
        nodesLeft += NODES_A_VERTEX;
        int known = at(vertex, tile, row);
        if (known > enough || queue.isEmpty() || isFinal(vertex, tile, row)) {
            return known;
        }
        int head = tile + moves.headStep[row];
        long limit = (long) fromNet(head) + inside(row) + enough + AT_LEAST_PS;
        while (nodesLeft > 0
                && !queue.isEmpty()
                && queue.current() <= limit
                && !isFinal(vertex, tile, row)) {
            nodesLeft--;
            step(progress);
        }
        return at(vertex, tile, row);
    }

    private boolean isFinal(int vertex, int tile, int row) {
        int step = moves.headStep[row];
        if (step == TileMoves.NO_HEAD) {
            return true;
        }
        int head = tile + step;
        return (isMerged(head) ? ofTile[head] : ofVertex.get(vertex)) < 0;
    }

    /** Settles a node, and says which: a tile, or the complement of a vertex. */
    private int step(Progress progress) {
        int node = queue.pop();
        int cost = node >= 0 ? ofTile[node] : ofVertex.get(~node);
        if (cost < 0) {
            return node;
        }
        if (++settled % STEPS_BETWEEN_CHECKS == 0) {
            progress.check();
        }
        if (node >= 0) {
            ofTile[node] = ~cost;
            fromTile(node, cost);
        } else {
            int vertex = ~node;
            ofVertex.put(vertex, ~cost);
            if (!isClosed(vertex)) {
                fromVertex(vertex, moves.rows.tile(vertex), cost);
            }
        }
        return node;
    }

    /** Back over all open wires that can be left in a tile. */
    private void fromTile(int tile, int cost) {
        int count = moves.step.length;
        int where = info[TileMoves.INFO * tile + TileMoves.WHERE];
        int column = where & 0xffff;
        int row = where >>> 16;
        for (int i = 0; i < count; i++) {
            int x = column - moves.dx[i];
            int y = row - moves.dy[i];
            if (x < 0 || y < 0 || x >= toColumn.length || y >= toRow.length) {
                continue;
            }
            int from = tile - moves.step[i];
            int before = ofTile[from];
            if (before < 0) {
                continue;
            }
            int known = TileMoves.INFO * from;
            int at = info[known + TileMoves.TEMPLATE] * count + i;
            int atLeast = moves.leastOfDistance[at];
            // A tile that is not merged has no cost of its own, so nothing is left out there.
            if (atLeast == TileMoves.NEVER || before != UNSEEN && cost >= before - atLeast) {
                continue;
            }
            int run = moves.runStart[at];
            int end = moves.runStart[at + 1];
            if (!isMerged(from)) {
                fromWires(from, run, end, cost);
                continue;
            }
            int base = info[known];
            int firstRow = info[known + TileMoves.FIRST_ROW];
            int worst = before == UNSEEN ? UNSEEN : before - cost;
            int least = worst;
            for (; run < end; run++) {
                int first = moves.runs[run] >>> TileMoves.RUN_BITS;
                int many = moves.runs[run] & (1 << TileMoves.RUN_BITS) - 1;
                long bits = open(base + first, many);
                // Most have no price: the first open one is then as good as any.
                for (; bits != 0 && least > moves.leastOfRun[run]; bits &= bits - 1) {
                    int local = first + Long.numberOfTrailingZeros(bits);
                    least = Math.min(least, entry(base + local, firstRow + local, least));
                }
            }
            if (least != worst) {
                relaxTile(from, (long) cost + least);
            }
        }
    }

    /** Back over the open wires of runs in a tile that is not merged. */
    private void fromWires(int tile, int run, int end, int cost) {
        int base = info[TileMoves.INFO * tile];
        for (int r = run; r < end; r++) {
            int first = moves.runs[r] >>> TileMoves.RUN_BITS;
            int many = moves.runs[r] & (1 << TileMoves.RUN_BITS) - 1;
            for (long bits = open(base + first, many); bits != 0; bits &= bits - 1) {
                fromVertex(base + first + Long.numberOfTrailingZeros(bits), tile, cost);
            }
        }
    }

    /**
     * The least cost of entering a vertex from a wire, or anything not below {@code known}. Only
     * the last edge's delay counts more than once where a price is a factor, so pins before it do
     * not.
     */
    private int entry(int vertex, int row, int known) {
        int delay = moves.enterPs[row];
        if (delay >= known || costs.isDelayOnly()) {
            return delay;
        }
        int last = moves.lastPs[row];
        return Math.min(SmallCost.LARGEST, delay - last + costs.openStep(goal, vertex, last));
    }

    /** Back over one vertex, which begins in a tile and costs so much from its end on. */
    private void fromVertex(int vertex, int tile, int cost) {
        if (isMerged(tile)) {
            int entry = entry(vertex, moves.rows.row(tile, vertex), UNSEEN);
            if (entry != TileMoves.NEVER) {
                relaxTile(tile, (long) cost + entry);
            }
            return;
        }
        into.reset(vertex);
        while (into.next()) {
            int other = into.other();
            if (isClosed(other)) {
                continue;
            }
            int row = moves.rows.row(moves.rows.tile(other), other);
            if (moves.headStep[row] == TileMoves.NO_HEAD) {
                // Nothing comes to it over a wire: only the net can begin there.
                hasMet |= net.contains(~other);
                continue;
            }
            int step = costs.openStep(other, vertex, into.delayPs(corner));
            relaxVertex(other, fromNet(tile) + inside(row), (long) cost + step);
        }
    }

    private void relaxTile(int tile, long cost) {
        if (cost < ofTile[tile] && ofTile[tile] >= 0 && fits(cost)) {
            if (ofTile[tile] == UNSEEN) {
                touched.add(tile);
            }
            ofTile[tile] = (int) cost;
            push(tile, cost + fromNet(tile));
        }
    }

    private void relaxVertex(int vertex, int before, long cost) {
        int known = ofVertex.get(vertex);
        if (cost < known && known >= 0 && fits(cost)) {
            ofVertex.put(vertex, (int) cost);
            push(~vertex, cost + before);
        }
    }

    private boolean fits(long cost) {
        leftOut |= cost >= SmallCost.LARGEST;
        return cost < SmallCost.LARGEST;
    }

    private void push(int node, long key) {
        leftOut |= key >= Integer.MAX_VALUE;
        if (key < Integer.MAX_VALUE) {
            queue.push(node, (int) key);
        }
    }

    /** How many nodes were settled for the present question. */
    public int settled() {
        return settled;
    }

    /** Bytes of the arrays. */
    public long bytes() {
        return 5L * ofTile.length
                + 8L * closed.length
                + 4L * touched.elements().length
                + 8L * HashCommon.arraySize(ofVertex.size(), Hash.DEFAULT_LOAD_FACTOR)
                + queue.bytes();
    }
}
