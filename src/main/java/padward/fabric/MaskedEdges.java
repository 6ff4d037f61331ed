package padward.fabric;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;

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
 * row = firstRow[tile] + v - vertexBase[tile];
 * for (g = groupStart[row]; g < groupStart[row + 1]; g++)
 *   bit b of mask[g] is the vertex vertexBase[tile + step[g]] + local[g] + b
 * }</pre>
 *
 * <p>Memory: 12 bytes a tile and an eighth of a byte a vertex, shared with the fabric, plus the
 * templates.
 */
public final class MaskedEdges {
    /** Base-2 logarithm of the number of vertices for which {@link #tileOfBlock} has one entry. */
    public static final int BLOCK_BITS = TileGrid.BLOCK_BITS;

    private static final int WORD = 64;

    /** First vertex of each tile, and one past the last. */
    public final int[] vertexBase;

    /** The tile of the first vertex of each block. */
    public final int[] tileOfBlock;

    /** For each tile, the row of its first vertex. Rows are shared by tiles that look alike. */
    public final int[] firstRow;

    /** For each row, its first group; the next entry ends them. */
    public final int[] groupStart;

    /** For each group, the step from the vertex's tile to the targets' tile, in tile numbers. */
    public final int[] step;

    /** For each group, the local number of the target that bit 0 stands for. */
    public final int[] local;

    /** For each group, whether its targets are pins from which nothing leads on. */
    public final boolean[] leaf;

    /** For each group, its targets. */
    public final long[] mask;

    private final int[] fastPs;
    private final int[] slowPs;

    /** One tile for each template: its vertices stand for all vertices with the same rows. */
    private final int[] sampleTiles;

    private MaskedEdges(TileGrid grid, int[] firstRow, int[] sampleTiles, Groups groups) {
        this.vertexBase = grid.vertexBase;
        this.tileOfBlock = grid.tileOfBlock;
        this.firstRow = firstRow;
        this.sampleTiles = sampleTiles;
        this.groupStart = groups.start.toIntArray();
        this.step = groups.step.toIntArray();
        this.local = groups.local.toIntArray();
        this.mask = groups.mask.toLongArray();
        this.fastPs = groups.fastPs.toIntArray();
        this.slowPs = groups.slowPs.toIntArray();
        this.leaf = new boolean[step.length];
        for (int g = 0; g < leaf.length; g++) {
            leaf[g] = groups.leaf.getInt(g) == 1;
        }
    }

    /** For each group, the delay of its edges at a corner, picoseconds. */
    public int[] delayPs(Corner corner) {
        return corner == Corner.FAST ? fastPs : slowPs;
    }

    /** Number of rows. */
    public int rowCount() {
        return groupStart.length - 1;
    }

    /** Tiles whose vertices have, taken together, every row: one tile per template. */
    public int[] sampleTiles() {
        return sampleTiles.clone();
    }

    static MaskedEdges of(TileGrid grid, TileTemplates templates, DelayClasses classes) {
        int[] firstRow = new int[templates.templateOfTile.length];
        int[] sample = new int[templates.count()];
        Arrays.fill(sample, Fabric.NOTHING);
        for (int tile = 0; tile < firstRow.length; tile++) {
            int template = templates.templateOfTile[tile];
            // Each template ends with one entry more than it has vertices.
            firstRow[tile] = templates.templateStart[template];
            if (sample[template] == Fabric.NOTHING) {
                sample[template] = tile;
            }
        }
        Groups groups = new Groups();
        for (int tile : sample) {
            int first = firstRow[tile];
            for (int i = 0; i < grid.shape(tile).size(); i++) {
                groups.addRow(targets(grid, templates, classes, tile, first + i));
            }
            groups.addRow(List.of());
        }
        groups.start.add(groups.step.size());
        return new MaskedEdges(grid, firstRow, sample, groups);
    }

    private record Target(int step, int local, int fastPs, int slowPs, boolean leaf) {
        boolean joins(Target other) {
            return step == other.step
                    && fastPs == other.fastPs
                    && slowPs == other.slowPs
                    && leaf == other.leaf;
        }
    }

    private static List<Target> targets(
            TileGrid grid, TileTemplates templates, DelayClasses classes, int tile, int row) {
        List<Target> result = new ArrayList<>();
        for (int e = templates.rowStart[row]; e < templates.rowStart[row + 1]; e++) {
            int step = templates.edgeStep[e];
            int local = templates.edgeLocal[e];
            TileShape shape = grid.shape(tile + step);
            int fixed = local - shape.wireCount;
            boolean leaf = fixed >= 0 && !shape.model.leadsOn(fixed);
            result.add(
                    new Target(
                            step,
                            local,
                            classes.delayPs(templates.edgeClass[e], Corner.FAST),
                            classes.delayPs(templates.edgeClass[e], Corner.SLOW),
                            leaf));
        }
        result.sort(
                Comparator.comparingInt(Target::step)
                        .thenComparing(Target::leaf)
                        .thenComparingInt(Target::slowPs)
                        .thenComparingInt(Target::fastPs)
                        .thenComparingInt(Target::local));
        return result;
    }

    private static final class Groups {
        final IntArrayList start = new IntArrayList();
        final IntArrayList step = new IntArrayList();
        final IntArrayList local = new IntArrayList();
        final IntArrayList fastPs = new IntArrayList();
        final IntArrayList slowPs = new IntArrayList();
        final IntArrayList leaf = new IntArrayList();
        final LongArrayList mask = new LongArrayList();

        void addRow(List<Target> targets) {
            start.add(step.size());
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
                step.add(first.step());
                local.add(first.local());
                fastPs.add(first.fastPs());
                slowPs.add(first.slowPs());
                leaf.add(first.leaf() ? 1 : 0);
                mask.add(bits);
            }
        }
    }
}
