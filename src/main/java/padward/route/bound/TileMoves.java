package padward.route.bound;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.LongOpenHashSet;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.BitsetAdjacency;
import padward.fabric.pattern.PatternFabric;
import padward.route.queue.BucketQueue;

/**
 * How the wires of a pattern fabric lead from tile to tile, for {@link TileSearch}: the tile in
 * which each can be left (its head), and the least delay at which it can be entered by whatever
 * came to its tile over a wire. Does not depend on what a design uses. Memory: 16 bytes a tile and
 * 13 a row of the masked edges, 4 a kind of tile and distance.
 */
public final class TileMoves {
    /** In place of a delay: never entered from a wire, not even through pins. */
    static final int NEVER = Integer.MAX_VALUE;

    /** In place of a step: nothing leads on from here, or into here. */
    static final int NO_HEAD = Integer.MIN_VALUE;

    /** How many low bits of {@link #runs} are the number of wires. */
    static final int RUN_BITS = 7;

    private static final int MOST_IN_RUN = 64;

    final BitsetAdjacency rows;
    final int columns;

    /** Numbers for each tile in {@link #info}; the first of them is its first vertex. */
    static final int INFO = 4;

    static final int FIRST_ROW = 1;
    static final int TEMPLATE = 2;

    /** Its column, and its row in the upper half. */
    static final int WHERE = 3;

    /** What is known of each tile, side by side, as it is read together. */
    final int[] info;

    /** For each row, the step from where a vertex begins to the tile where it is left. */
    final int[] headStep;

    /**
     * For each row, the least delay from the end of a wire in the tile until the vertex is entered,
     * through pins or not.
     */
    final int[] enterPs;

    /** For each row, the least delay of any edge into the vertex; a price may multiply that. */
    final int[] lastPs;

    final boolean[] isWireRow;

    /** For each template, how many vertices from its first on are wires. */
    final int[] wires;

    /** Distances from where wires begin to where they are left, and the same as steps. */
    final int[] dx;

    final int[] dy;
    final int[] step;

    /** Where the runs of a template and a distance begin: {@code template * dx.length + i}. */
    final int[] runStart;

    /** Runs of wires that are alike: the first one's local number, and how many. */
    final int[] runs;

    /** For each run the least of its wires' {@link #enterPs}, at most. */
    final int[] leastOfRun;

    /** The same for all runs of a template and a distance, {@link #NEVER} where there is none. */
    final int[] leastOfDistance;

    /** The least delay of moving by so many columns, or rows, from {@code 1 - columns} on. */
    final int[] alongColumns;

    final int[] alongRows;

    private boolean sound = true;

    private TileMoves(PatternFabric fabric, Corner corner, Progress progress) {
        progress.report(-1, "finding how wires lead from tile to tile");
        rows = fabric.maskedEdges();
        columns = fabric.columns();
        int[] samples = rows.sampleTiles();
        // A tile without vertices has no row of its own: one more template stands for all of these.
        int empty = samples.length;
        int[] templateAtRow = new int[rows.rowCount()];
        isWireRow = new boolean[rows.rowCount()];
        wires = new int[samples.length + 1];
        for (int template = 0; template < samples.length; template++) {
            int tile = samples[template];
            if (isEmpty(tile)) {
                continue;
            }
            templateAtRow[rows.firstRow[tile]] = template;
            for (int v = rows.vertexBase[tile]; v < rows.vertexBase[tile + 1]; v++) {
                boolean isWire = fabric.kind(v) == VertexKind.WIRE;
                isWireRow[rows.row(tile, v)] = isWire;
                wires[template] += isWire ? 1 : 0;
            }
        }
        int tiles = fabric.tileCount();
        info = new int[INFO * tiles];
        for (int tile = 0; tile < tiles; tile++) {
            info[INFO * tile] = rows.vertexBase[tile];
            info[INFO * tile + FIRST_ROW] = rows.firstRow[tile];
            info[INFO * tile + TEMPLATE] =
                    isEmpty(tile) ? empty : templateAtRow[rows.firstRow[tile]];
            info[INFO * tile + WHERE] = fabric.row(tile) << 16 | fabric.column(tile);
        }
        lastPs = new int[rows.rowCount()];
        Arrays.fill(lastPs, NEVER);
        enterPs = leastEntries(corner, samples, progress);
        headStep = new int[rows.rowCount()];
        IntArrayList distances = new IntArrayList();
        List<IntArrayList> runsOf = new ArrayList<>();
        IntArrayList leastPs = new IntArrayList();
        findHeads(samples, distances, leastPs, runsOf);
        int count = leastPs.size();
        dx = new int[count];
        dy = new int[count];
        step = new int[count];
        for (int i = 0; i < count; i++) {
            dx[i] = distances.getInt(2 * i);
            dy[i] = distances.getInt(2 * i + 1);
            step[i] = dy[i] * columns + dx[i];
        }
        runStart = new int[(samples.length + 1) * count + 1];
        runsOf.add(new IntArrayList());
        IntArrayList all = new IntArrayList();
        for (int template = 0; template <= samples.length; template++) {
            for (int i = 0; i < count; i++) {
                runStart[template * count + i] = all.size();
                // Triples: template, distance, run; sorted by template as they were found.
                addRuns(runsOf.get(template), i, all);
            }
        }
        runStart[(samples.length + 1) * count] = all.size();
        runs = all.toIntArray();
        leastOfRun = leastOfRuns(samples, count);
        leastOfDistance = new int[runStart.length - 1];
        for (int at = 0; at < leastOfDistance.length; at++) {
            leastOfDistance[at] =
                    Arrays.stream(leastOfRun, runStart[at], runStart[at + 1]).min().orElse(NEVER);
        }
        alongColumns = line(fabric.columns(), dx, dy, leastPs);
        alongRows = line(fabric.rows(), dy, dx, leastPs);
    }

    private boolean isEmpty(int tile) {
        return rows.vertexBase[tile] == rows.vertexBase[tile + 1];
    }

    /**
     * Looks at a fabric; empty where wires can be left in more than one tile, which the search does
     * not know how to merge. O(tiles, and for each two templates side by side the edges between
     * them).
     *
     * @throws CancellationException when {@code progress} says so
     */
    static Optional<TileMoves> of(Fabric fabric, Corner corner, Progress progress) {
        if (!(fabric instanceof PatternFabric pattern)) {
            return Optional.empty();
        }
        TileMoves moves = new TileMoves(pattern, corner, progress);
        return moves.sound ? Optional.of(moves) : Optional.empty();
    }

    private int[] leastOfRuns(int[] samples, int count) {
        int[] result = new int[runs.length];
        for (int template = 0; template < samples.length; template++) {
            int firstRow = rows.firstRow[samples[template]];
            for (int r = runStart[template * count]; r < runStart[(template + 1) * count]; r++) {
                int first = firstRow + (runs[r] >>> RUN_BITS);
                int many = runs[r] & (1 << RUN_BITS) - 1;
                result[r] = Arrays.stream(enterPs, first, first + many).min().orElse(NEVER);
            }
        }
        return result;
    }

    private static void addRuns(IntArrayList found, int distance, IntArrayList all) {
        for (int k = 0; k < found.size(); k += 2) {
            if (found.getInt(k) == distance) {
                all.add(found.getInt(k + 1));
            }
        }
    }

    /**
     * For each row the least delay at which it is entered. Which rows an edge leads to depends on
     * the templates of both tiles, so each pair of neighbours is looked at once.
     */
    private int[] leastEntries(Corner corner, int[] samples, Progress progress) {
        int[] least = new int[rows.rowCount()];
        Arrays.fill(least, NEVER);
        int[] delays = rows.delayPs(corner);
        int[][] steps = new int[samples.length + 1][];
        steps[samples.length] = new int[0];
        for (int template = 0; template < samples.length; template++) {
            steps[template] = stepsFrom(samples[template]);
        }
        LongOpenHashSet known = new LongOpenHashSet();
        // Edges from pins and pads, as triples: row, row, delay.
        IntArrayList fromPins = new IntArrayList();
        for (int tile = 0; tile < info.length / INFO; tile++) {
            if (tile % 1024 == 0) {
                progress.check();
            }
            int template = info[INFO * tile + TEMPLATE];
            for (int i = 0; i < steps[template].length; i++) {
                int to = tile + steps[template][i];
                long pair =
                        (long) template << Integer.SIZE
                                | (long) i << 20
                                | info[INFO * to + TEMPLATE];
                boolean fits = samples.length < 1 << 20 && i < 1 << 12;
                if (!fits || known.add(pair)) {
                    progress.check();
                    addEntries(tile, to, delays, least, fromPins);
                }
            }
        }
        boolean changed = true;
        while (changed) {
            progress.check();
            changed = false;
            for (int k = 0; k < fromPins.size(); k += 3) {
                int from = least[fromPins.getInt(k)];
                int to = fromPins.getInt(k + 1);
                if (from != NEVER && from + fromPins.getInt(k + 2) < least[to]) {
                    least[to] = from + fromPins.getInt(k + 2);
                    changed = true;
                }
            }
        }
        return least;
    }

    private int[] stepsFrom(int tile) {
        IntArrayList result = new IntArrayList();
        for (int v = rows.vertexBase[tile]; v < rows.vertexBase[tile + 1]; v++) {
            int span = rows.groupSpan[rows.row(tile, v)];
            int group = span >>> BitsetAdjacency.SPAN_BITS;
            int end = group + (span & BitsetAdjacency.SPAN_MASK);
            for (; group < end; group++) {
                int to = BitsetAdjacency.step(rows.groups[2 * group + 1]);
                if (!result.contains(to)) {
                    result.add(to);
                }
            }
        }
        return result.toIntArray();
    }

    private void addEntries(int tile, int to, int[] delays, int[] least, IntArrayList fromPins) {
        for (int v = rows.vertexBase[tile]; v < rows.vertexBase[tile + 1]; v++) {
            int from = rows.row(tile, v);
            int span = rows.groupSpan[from];
            int group = span >>> BitsetAdjacency.SPAN_BITS;
            int end = group + (span & BitsetAdjacency.SPAN_MASK);
            for (; group < end; group++) {
                long where = rows.groups[2 * group + 1];
                if (tile + BitsetAdjacency.step(where) != to) {
                    continue;
                }
                int first = rows.firstRow[to] + BitsetAdjacency.local(where);
                for (long bits = rows.groups[2 * group]; bits != 0; bits &= bits - 1) {
                    int row = first + Long.numberOfTrailingZeros(bits);
                    lastPs[row] = Math.min(lastPs[row], delays[group]);
                    if (isWireRow[from]) {
                        least[row] = Math.min(least[row], delays[group]);
                    } else {
                        fromPins.add(from);
                        fromPins.add(row);
                        fromPins.add(delays[group]);
                    }
                }
            }
        }
    }

    /** Finds the only tile in which each vertex can be left; unsound where there are several. */
    private void findHeads(
            int[] samples,
            IntArrayList distances,
            IntArrayList leastPs,
            List<IntArrayList> runsOf) {
        for (int tile : samples) {
            IntArrayList found = new IntArrayList();
            int size = rows.vertexBase[tile + 1] - rows.vertexBase[tile];
            int last = Fabric.NOTHING;
            for (int local = 0; local < size; local++) {
                int row = rows.firstRow[tile] + local;
                int head = onlyStep(row);
                boolean entered = enterPs[row] != NEVER;
                sound &= isWireRow[row] || !entered || head == NO_HEAD || head == 0;
                headStep[row] = entered ? head : NO_HEAD;
                if (!isWireRow[row] || headStep[row] == NO_HEAD) {
                    last = Fabric.NOTHING;
                    continue;
                }
                int distance = distance(tile, tile + head, distances, leastPs);
                leastPs.set(distance, Math.min(leastPs.getInt(distance), enterPs[row]));
                int at = found.size() - 1;
                if (distance == last && (found.getInt(at) & MOST_IN_RUN - 1) != 0) {
                    found.set(at, found.getInt(at) + 1);
                } else {
                    found.add(distance);
                    found.add(local << RUN_BITS | 1);
                }
                last = distance;
            }
            runsOf.add(found);
        }
    }

    /** The step to a tile in which a vertex can be left; {@link #NO_HEAD} where there is none. */
    int anyStep(int row) {
        int span = rows.groupSpan[row];
        int group = span >>> BitsetAdjacency.SPAN_BITS;
        return (span & BitsetAdjacency.SPAN_MASK) == 0
                ? NO_HEAD
                : BitsetAdjacency.step(rows.groups[2 * group + 1]);
    }

    private int onlyStep(int row) {
        int span = rows.groupSpan[row];
        int group = span >>> BitsetAdjacency.SPAN_BITS;
        int end = group + (span & BitsetAdjacency.SPAN_MASK);
        int head = NO_HEAD;
        for (; group < end; group++) {
            int to = BitsetAdjacency.step(rows.groups[2 * group + 1]);
            sound &= head == NO_HEAD || head == to;
            head = to;
        }
        return head;
    }

    private int distance(int tile, int head, IntArrayList distances, IntArrayList leastPs) {
        int x = head % columns - tile % columns;
        int y = head / columns - tile / columns;
        for (int i = 0; i < leastPs.size(); i++) {
            if (distances.getInt(2 * i) == x && distances.getInt(2 * i + 1) == y) {
                return i;
            }
        }
        distances.add(x);
        distances.add(y);
        leastPs.add(NEVER);
        return leastPs.size() - 1;
    }

    /**
     * The least delays of moving along one axis. A move along both axes counts half on each, so the
     * two together are never more than the least delay of a move.
     */
    private static int[] line(int length, int[] along, int[] across, IntArrayList leastPs) {
        int[] result = new int[2 * length - 1];
        // As far as anything can be, and sums of two still fit.
        Arrays.fill(result, NEVER / 4);
        result[length - 1] = 0;
        BucketQueue queue = new BucketQueue();
        queue.clear(0);
        queue.push(length - 1, 0);
        while (!queue.isEmpty()) {
            int at = queue.pop();
            if (result[at] != queue.current()) {
                continue;
            }
            for (int i = 0; i < along.length; i++) {
                int to = at + along[i];
                int cost = across[i] == 0 ? leastPs.getInt(i) : leastPs.getInt(i) / 2;
                if (to >= 0 && to < result.length && result[at] + cost < result[to]) {
                    result[to] = result[at] + cost;
                    queue.push(to, result[to]);
                }
            }
        }
        return result;
    }
}
