package padward.fabric.explicit;

import it.unimi.dsi.fastutil.longs.LongArrayList;
import it.unimi.dsi.fastutil.longs.LongArrays;
import it.unimi.dsi.fastutil.longs.LongList;
import java.io.IOException;
import java.util.Optional;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.fabric.array.InternedBytes;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * Switch groups of an explicit fabric, said twice: for a vertex, of which groups the switches into
 * it are, and for a group, which its switches are. Where all edges into a vertex are of one group,
 * as with a multiplexer, both say just that. A group belongs to the tile that its name states, or
 * to the one where its first switch begins, and everything is relative to tiles, so that repeated
 * ones share it ({@link TileRows}).
 *
 * <pre>
 * row of a vertex   0 home group              all edges into it are of one group; or
 *                   1 (from home group)…      these, in the order of where they begin
 * row of a group    (to whole)…               all edges into a vertex; or
 *                   (to part count from…)…    some of them
 * </pre>
 *
 * A vertex is a step in tiles and a place in the tile. Steps begin at the tile of the row, that of
 * a {@code home} in a vertex's row at the tile of its {@code from}, where there is one.
 */
final class TileSwitchGroups implements SwitchGroups {
    static final int WHOLE = 0;
    static final int PART = 1;

    private final TileOffsets bases;
    private final TileOffsets groupBases;
    private final TileNames names;
    private final EdgeRows in;
    private final TileRows ofVertices;
    private final TileRows ofGroups;

    /**
     * @param bases the numbers of vertices
     * @param names the groups' names
     * @param in the edges into vertices
     */
    TileSwitchGroups(
            TileOffsets bases,
            TileOffsets groupBases,
            TileNames names,
            EdgeRows in,
            TileRows ofVertices,
            TileRows ofGroups) {
        this.bases = bases;
        this.groupBases = groupBases;
        this.names = names;
        this.in = in;
        this.ofVertices = ofVertices;
        this.ofGroups = ofGroups;
    }

    @Override
    public int count() {
        return groupBases.count();
    }

    @Override
    public String name(int group) {
        return names.name(group);
    }

    @Override
    public int groupOf(int from, int to) {
        int tile = bases.tileOf(to);
        int row = ofVertices.row(tile, to);
        if (row == 0) {
            return Fabric.NOTHING;
        }
        TileRows.Numbers numbers = ofVertices.numbers().open(row);
        if (numbers.next() == WHOLE) {
            int home = tile + numbers.nextSigned();
            return groupBases.first(home) + numbers.next();
        }
        while (numbers.hasNext()) {
            int start = tile + numbers.nextSigned();
            int vertex = bases.first(start) + numbers.next();
            int home = start + numbers.nextSigned();
            int group = numbers.next();
            if (vertex == from) {
                return groupBases.first(home) + group;
            }
        }
        return Fabric.NOTHING;
    }

    @Override
    public LongList switches(int group) {
        int tile = groupBases.tileOf(group);
        TileRows.Numbers numbers = ofGroups.numbers().open(ofGroups.row(tile, group));
        LongArrayList result = new LongArrayList(4);
        while (numbers.hasNext()) {
            int to = bases.first(tile + numbers.nextSigned()) + numbers.next();
            if (numbers.next() == WHOLE) {
                EdgeCursor edges = in.cursor();
                edges.reset(to);
                while (edges.next()) {
                    result.add(EdgeKey.of(edges.other(), to));
                }
            } else {
                for (int left = numbers.next(); left > 0; left--) {
                    int from = bases.first(tile + numbers.nextSigned()) + numbers.next();
                    result.add(EdgeKey.of(from, to));
                }
            }
        }
        LongArrays.quickSort(result.elements(), 0, result.size());
        return result;
    }

    @Override
    public long memory() {
        return groupBases.memory() + ofVertices.memory() + ofGroups.memory();
    }

    @Override
    public long nameMemory() {
        return names.memory();
    }

    /** Writes the groups of a fabric, if it has any. */
    static void write(CompactOut out, Optional<TileSwitchGroups> groups) throws IOException {
        out.flag(groups.isPresent());
        if (groups.isPresent()) {
            TileSwitchGroups own = groups.get();
            own.groupBases.write(out);
            own.names.write(out);
            own.ofVertices.write(out);
            own.ofGroups.write(out);
        }
    }

    static Optional<TileSwitchGroups> read(
            CompactIn source,
            int columns,
            int rows,
            InternedBytes pool,
            TileOffsets bases,
            EdgeRows in)
            throws IOException {
        if (!source.flag()) {
            return Optional.empty();
        }
        TileOffsets groupBases = TileOffsets.read(source, bases.tiles());
        Damaged.unless(groupBases.count() > 0, "no switch groups");
        TileNames names = TileNames.read(source, columns, rows, pool, groupBases);
        TileRows ofVertices = TileRows.read(source, bases);
        TileRows ofGroups = TileRows.read(source, groupBases);
        TileSwitchGroups result =
                new TileSwitchGroups(bases, groupBases, names, in, ofVertices, ofGroups);
        result.requireVertices();
        result.requireGroups();
        return Optional.of(result);
    }

    private void requireVertices() throws Damaged {
        RowReach starts = new RowReach(ofVertices.rowCount(), bases, false);
        RowReach homes = new RowReach(ofVertices.rowCount(), groupBases, false);
        CheckedNumbers numbers = ofVertices.checkedNumbers();
        for (int row = 1; row < ofVertices.rowCount(); row++) {
            numbers.open(row);
            if (numbers.nextWithin(WHOLE, PART) == WHOLE) {
                addNext(homes, row, 0, numbers);
                Damaged.unless(!numbers.hasNext(), "the groups of a vertex");
            }
            while (numbers.hasNext()) {
                addNext(homes, row, addNext(starts, row, 0, numbers), numbers);
            }
        }
        ofVertices.require(starts, this::requireVertex);
        ofVertices.require(homes, this::requireVertex);
    }

    /** The step in tiles to the next vertex or group, from the tile of the row. */
    private static int addNext(RowReach reach, int row, int step, CheckedNumbers numbers)
            throws Damaged {
        long sum = (long) step + numbers.nextSigned();
        Damaged.unless(sum == (int) sum, "a step out of range");
        reach.add(row, (int) sum, numbers.nextWithin(0, Integer.MAX_VALUE));
        return (int) sum;
    }

    private void requireVertex(int tile, int place) throws Damaged {
        TileRows.Numbers numbers = ofVertices.numbers().open(ofVertices.rowAt(tile, place));
        if (numbers.next() == WHOLE) {
            requireNext(numbers, groupBases, tile);
        }
        while (numbers.hasNext()) {
            long start = requireNext(numbers, bases, tile);
            requireNext(numbers, groupBases, start);
        }
    }

    private void requireGroups() throws Damaged {
        RowReach ends = new RowReach(ofGroups.rowCount(), bases, false);
        // no group is empty: never sure of the empty row
        ends.add(0, Integer.MIN_VALUE, 0);
        CheckedNumbers numbers = ofGroups.checkedNumbers();
        for (int row = 1; row < ofGroups.rowCount(); row++) {
            numbers.open(row);
            do {
                addNext(ends, row, 0, numbers);
                if (numbers.nextWithin(WHOLE, PART) == PART) {
                    for (int left = numbers.nextWithin(1, bases.count()); left > 0; left--) {
                        addNext(ends, row, 0, numbers);
                    }
                }
            } while (numbers.hasNext());
        }
        ofGroups.require(ends, this::requireGroup);
    }

    private void requireGroup(int tile, int place) throws Damaged {
        int row = ofGroups.rowAt(tile, place);
        Damaged.unless(row != 0, "an empty group");
        TileRows.Numbers numbers = ofGroups.numbers().open(row);
        while (numbers.hasNext()) {
            requireNext(numbers, bases, tile);
            if (numbers.next() == PART) {
                for (int left = numbers.next(); left > 0; left--) {
                    requireNext(numbers, bases, tile);
                }
            }
        }
    }

    /** The tile of the next vertex or group, which has to be one that there is. */
    private static long requireNext(TileRows.Numbers numbers, TileOffsets things, long tile)
            throws Damaged {
        long there = tile + numbers.nextSigned();
        things.requireNumber(there, numbers.next());
        return there;
    }
}
