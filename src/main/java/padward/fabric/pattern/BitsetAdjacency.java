package padward.fabric.pattern;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import padward.fabric.DelayClasses;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/**
 * The outgoing edges of a pattern fabric in the form that a search's inner loop reads: those of one
 * vertex that lead into the same tile at the same delay are one group, its targets the bits of a
 * word. A search drops all targets that it has done with by one mask, without looking at each.
 *
 * <p>The arrays are open to the search because a call per edge would cost more than the edge; they
 * are not to be changed. The groups of vertex v are found so:
 *
 * <pre>{@code
 * tile = tileOfBlock[v >>> BLOCK_BITS]; while (vertexBase[tile + 1] <= v) tile++;
 * span = groupSpan[firstRow[tile] + v - vertexBase[tile]];
 * for (g = span >>> SPAN_BITS; g < (span >>> SPAN_BITS) + (span & SPAN_MASK); g++)
 *   bit b of groups[2 * g] is the vertex
 *   vertexBase[tile + step(groups[2 * g + 1])] + local(groups[2 * g + 1]) + b
 * }</pre>
 *
 * <p>Memory: 12 bytes a tile and an eighth of a byte a vertex, shared with the fabric, plus 4 bytes
 * for each vertex of each template, plus the distinct rows.
 */
public final class BitsetAdjacency {
    /** Base-2 logarithm of the number of vertices for which {@link #tileOfBlock} has one entry. */
    public static final int BLOCK_BITS = TileGrid.BLOCK_BITS;

    /** How many low bits of {@link #groupSpan} are the number of groups. */
    public static final int SPAN_BITS = 10;

    /** Those bits. */
    public static final int SPAN_MASK = (1 << SPAN_BITS) - 1;

    private static final int WORD = 64;
    private static final int LOCAL_MASK = (1 << 28) - 1;
    private static final long LEAF = 1L << 28;
    private static final long SLOWEST = 1L << 29;

    /** First vertex of each tile, and one past the last. */
    public final int[] vertexBase;

    /** The tile of the first vertex of each block. */
    public final int[] tileOfBlock;

    /** For each tile, the row of its first vertex. Rows are shared by tiles that look alike. */
    public final int[] firstRow;

    /** For each row, its first group and how many there are. Equal rows share their groups. */
    public final int[] groupSpan;

    /**
     * For each group two words: its targets, then where they are and of what sort; see {@link
     * #step}, {@link #local}, {@link #isLeaf}, {@link #isSlowest}.
     */
    public final long[] groups;

    private final int[] fastPs;
    private final int[] slowPs;
    private final TileGrid grid;
    private final SlowestEdges slowest;

    /** One tile for each template: its vertices stand for all vertices with the same rows. */
    private final int[] sampleTiles;

    private BitsetAdjacency(
            TileGrid grid, int[] firstRow, int[] sampleTiles, Groups groups, SlowestEdges slowest) {
        this.grid = grid;
        this.slowest = slowest;
        this.vertexBase = grid.vertexBase;
        this.tileOfBlock = grid.tileOfBlock;
        this.firstRow = firstRow;
        this.sampleTiles = sampleTiles;
        this.groupSpan = groups.span.toIntArray();
        this.groups = groups.words.toLongArray();
        this.fastPs = groups.fastPs.toIntArray();
        this.slowPs = groups.slowPs.toIntArray();
    }

    /** The step from the vertex's tile to the targets' tile, in tile numbers. */
    public static int step(long word) {
        return (int) (word >> Integer.SIZE);
    }

    /** The local number of the target that bit 0 stands for. */
    public static int local(long word) {
        return (int) word & LOCAL_MASK;
    }

    /** Whether the targets are pins from which nothing leads on. */
    public static boolean isLeaf(long word) {
        return (word & LEAF) != 0;
    }

    /**
     * Whether no edge into the targets is slower. In an order of rising cost, such an edge improves
     * only on targets that nothing has reached before.
     */
    public static boolean isSlowest(long word) {
        return (word & SLOWEST) != 0;
    }

    /** For each group, the delay of its edges at a corner, picoseconds. */
    public int[] delayPs(Corner corner) {
        return corner == Corner.FAST ? fastPs : slowPs;
    }

    /**
     * For each row, the delay of the slowest edge into its vertices at a corner, picoseconds; made
     * again at each call.
     */
    public int[] slowestPs(Corner corner) {
        int[] result = new int[rowCount()];
        int[][] ofShape = corner == Corner.FAST ? slowest.fastPs : slowest.slowPs;
        for (int tile : sampleTiles) {
            int[] delays = ofShape[grid.shapeOfTile[tile]];
            System.arraycopy(delays, 0, result, firstRow[tile], delays.length);
        }
        return result;
    }

    /** The tile in which a vertex begins. */
    public int tile(int vertex) {
        int tile = tileOfBlock[vertex >>> BLOCK_BITS];
        while (vertexBase[tile + 1] <= vertex) {
            tile++;
        }
        return tile;
    }

    /** The row of a vertex that begins in a tile. */
    public int row(int tile, int vertex) {
        return firstRow[tile] + vertex - vertexBase[tile];
    }

    /** Number of rows. */
    public int rowCount() {
        return groupSpan.length;
    }

    /** Tiles whose vertices have, taken together, every row: one tile per template. */
    public int[] sampleTiles() {
        return sampleTiles.clone();
    }

    /** Bytes of the arrays that are not shared with the fabric. */
    long bytes() {
        int ints = firstRow.length + groupSpan.length + fastPs.length + slowPs.length;
        return 4L * ints + 8L * groups.length + slowest.bytes();
    }

    static BitsetAdjacency of(TileGrid grid, TileTemplates templates, DelayClasses classes) {
        int[] firstRow = new int[templates.templateOfTile.length];
        int[] sample = new int[templates.count()];
        Arrays.fill(sample, Fabric.NOTHING);
        for (int tile = 0; tile < firstRow.length; tile++) {
            int template = templates.templateOfTile[tile];
            firstRow[tile] = templates.templateStart[template];
            if (sample[template] == Fabric.NOTHING) {
                sample[template] = tile;
            }
        }
        SlowestEdges slowest = new SlowestEdges(grid, templates, classes, sample);
        Groups groups = new Groups();
        // Most rows are like one before: equal edges into tiles of equal shapes.
        Map<IntArrayList, Integer> known = new HashMap<>();
        IntArrayList key = new IntArrayList();
        for (int tile : sample) {
            for (int i = 0; i < grid.shape(tile).size(); i++) {
                describe(grid, templates, tile, i, key);
                Integer span = known.get(key);
                if (span == null) {
                    span = groups.spanOf(targets(grid, templates, classes, slowest, tile, i));
                    known.put(key.clone(), span);
                }
                groups.span.add(span.intValue());
            }
        }
        return new BitsetAdjacency(grid, firstRow, sample, groups, slowest);
    }

    /** The delays of the slowest edges into each vertex of each shape, over all templates. */
    private static final class SlowestEdges {
        private final int[][] fastPs;
        private final int[][] slowPs;

        SlowestEdges(TileGrid grid, TileTemplates templates, DelayClasses classes, int[] sample) {
            fastPs = new int[grid.shapes.size()][];
            slowPs = new int[grid.shapes.size()][];
            for (int i = 0; i < fastPs.length; i++) {
                fastPs[i] = new int[grid.shapes.get(i).size()];
                slowPs[i] = new int[grid.shapes.get(i).size()];
            }
            for (int tile : sample) {
                int size = grid.shape(tile).size();
                for (int local = 0; local < size; local++) {
                    int row = templates.row(tile, local);
                    for (int e = templates.rowStart[row]; e < templates.rowStart[row + 1]; e++) {
                        int shape = grid.shapeOfTile[tile + templates.edgeStep[e]];
                        int to = templates.edgeLocal[e];
                        int kind = templates.edgeClass(e);
                        fastPs[shape][to] =
                                Math.max(fastPs[shape][to], classes.delayPs(kind, Corner.FAST));
                        slowPs[shape][to] =
                                Math.max(slowPs[shape][to], classes.delayPs(kind, Corner.SLOW));
                    }
                }
            }
        }

        long bytes() {
            return 8L * Arrays.stream(fastPs).mapToInt(delays -> delays.length).sum();
        }

        boolean isSlowest(int shape, int local, int fast, int slow) {
            return fast == fastPs[shape][local] && slow == slowPs[shape][local];
        }
    }

    private record Target(
            int step, int local, int fastPs, int slowPs, boolean leaf, boolean slowest) {
        boolean joins(Target other) {
            return step == other.step
                    && fastPs == other.fastPs
                    && slowPs == other.slowPs
                    && leaf == other.leaf
                    && slowest == other.slowest;
        }

        // In plain code: what Java makes of a record by itself takes a twentieth of a second to
        // start, and every start comes by here.
        @Override
        public boolean equals(Object other) {
            return other instanceof Target that && local == that.local && joins(that);
        }

        @Override
        public int hashCode() {
            int hash = 31 * (31 * step + local) + fastPs;
            return 31 * hash + slowPs + (leaf ? 7919 : 0) + (slowest ? 15_485_863 : 0);
        }
    }

    /** What a row's groups depend on: its edges, and the shapes of the tiles that they lead to. */
    private static void describe(
            TileGrid grid, TileTemplates templates, int tile, int from, IntArrayList key) {
        key.clear();
        int row = templates.row(tile, from);
        key.add(row);
        int last = Integer.MIN_VALUE;
        for (int e = templates.rowStart[row]; e < templates.rowStart[row + 1]; e++) {
            if (templates.edgeStep[e] != last) {
                last = templates.edgeStep[e];
                key.add(grid.shapeOfTile[tile + last]);
            }
        }
    }

    private static List<Target> targets(
            TileGrid grid,
            TileTemplates templates,
            DelayClasses classes,
            SlowestEdges slowest,
            int tile,
            int from) {
        List<Target> result = new ArrayList<>();
        int row = templates.row(tile, from);
        for (int e = templates.rowStart[row]; e < templates.rowStart[row + 1]; e++) {
            int step = templates.edgeStep[e];
            int local = templates.edgeLocal[e];
            TileShape shape = grid.shape(tile + step);
            int fixed = local - shape.wireCount;
            boolean leaf = fixed >= 0 && !shape.model.leadsOn(fixed);
            int fast = classes.delayPs(templates.edgeClass(e), Corner.FAST);
            int slow = classes.delayPs(templates.edgeClass(e), Corner.SLOW);
            boolean last = slowest.isSlowest(grid.shapeOfTile[tile + step], local, fast, slow);
            result.add(new Target(step, local, fast, slow, leaf, last));
        }
        result.sort(
                Comparator.comparingInt(Target::step)
                        .thenComparing(Target::leaf)
                        .thenComparing(Target::slowest)
                        .thenComparingInt(Target::slowPs)
                        .thenComparingInt(Target::fastPs)
                        .thenComparingInt(Target::local));
        return result;
    }

    private static final class Groups {
        final IntArrayList span = new IntArrayList();
        final IntArrayList fastPs = new IntArrayList();
        final IntArrayList slowPs = new IntArrayList();
        final LongArrayList words = new LongArrayList();
        private final Map<List<Target>, Integer> known = new HashMap<>();

        /** Where a list of targets is, and in how many groups; adds it when it is new. */
        int spanOf(List<Target> targets) {
            return known.computeIfAbsent(targets, this::add);
        }

        private int add(List<Target> targets) {
            int start = fastPs.size();
            int i = 0;
            while (i < targets.size()) {
                Target first = targets.get(i);
                long bits = 0;
                while (i < targets.size()
                        && targets.get(i).joins(first)
                        && targets.get(i).local() - first.local() < WORD) {
                    bits |= 1L << (targets.get(i).local() - first.local());
                    i++;
                }
                words.add(bits);
                words.add(
                        (long) first.step() << Integer.SIZE
                                | first.local()
                                | (first.leaf() ? LEAF : 0)
                                | (first.slowest() ? SLOWEST : 0));
                fastPs.add(first.fastPs());
                slowPs.add(first.slowPs());
            }
            int count = fastPs.size() - start;
            if (count > SPAN_MASK || start >= 1 << (Integer.SIZE - 1 - SPAN_BITS)) {
                throw new IllegalStateException(
                        "a vertex with " + count + " groups of edges, or too many kinds of row");
            }
            return start << SPAN_BITS | count;
        }
    }
}
