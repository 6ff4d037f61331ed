package padward.fabric.explicit;

import java.io.IOException;
import padward.fabric.DelayClasses;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.PagedBytes;
import padward.fabric.array.RowNumbers;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;
import padward.fabric.delay.Corner;

/**
 * Edges of an explicit fabric in one direction. A tile has a run of row numbers, one a vertex, and
 * a row its edges as bytes ({@link RowPool}); equal runs and equal rows, which repeated tiles have
 * in plenty, are stored once.
 *
 * <p>Memory: 4 bytes a tile; 2 bytes for each vertex of each different tile, 4 where there are more
 * than 65,536 different rows; 4 bytes and some 2 to 5 an edge for each different row. Where no two
 * tiles are alike that is some 8 bytes a vertex and 3 an edge.
 */
final class EdgeRows {
    private static final int LOW_BITS = 7;
    private static final int LOW_MASK = (1 << LOW_BITS) - 1;

    private final TileOffsets bases;
    private final DelayClasses classes;
    private final int[] runOfTile;
    private final RowNumbers rowOfPlace;
    private final InternedBytes rows;
    private final int[] stepOfLane;
    private final int[] classOfLane;

    EdgeRows(
            TileOffsets bases,
            DelayClasses classes,
            int[] runOfTile,
            RowNumbers rowOfPlace,
            InternedBytes rows,
            int[] stepOfLane,
            int[] classOfLane) {
        this.bases = bases;
        this.classes = classes;
        this.runOfTile = runOfTile;
        this.rowOfPlace = rowOfPlace;
        this.rows = rows;
        this.stepOfLane = stepOfLane;
        this.classOfLane = classOfLane;
    }

    void write(CompactOut out) throws IOException {
        rows.write(out);
        out.numbers(stepOfLane);
        out.numbers(classOfLane);
        rowOfPlace.write(out);
        out.numbers(runOfTile);
    }

    static EdgeRows read(CompactIn in, TileOffsets bases, DelayClasses classes) throws IOException {
        InternedBytes rows = InternedBytes.read(in, false);
        int[] stepOfLane = in.numbers();
        int[] classOfLane = in.numbers();
        Damaged.unless(
                stepOfLane.length == classOfLane.length && stepOfLane.length > 0, "lanes of edges");
        RowNumbers rowOfPlace = RowNumbers.read(in, rows.size());
        int[] runOfTile = in.numbers();
        bases.requireRuns(runOfTile, 1, rowOfPlace.size());
        EdgeRows result =
                new EdgeRows(bases, classes, runOfTile, rowOfPlace, rows, stepOfLane, classOfLane);
        result.reach().require(bases, runOfTile, rowOfPlace, result::requireEnds);
        return result;
    }

    /** How far the rows lead, of which each is required to be edges: a cursor stays inside it. */
    private RowReach reach() throws Damaged {
        for (int lane = 1; lane < classOfLane.length; lane++) {
            requireClass(classOfLane[lane]);
        }
        RowReach reach = new RowReach(rows.size(), bases, true);
        CheckedNumbers numbers = new CheckedNumbers(rows);
        for (int row = 0; row < rows.size(); row++) {
            addEdges(row, reach, numbers);
        }
        return reach;
    }

    private void addEdges(int row, RowReach reach, CheckedNumbers numbers) throws Damaged {
        numbers.open(row);
        while (numbers.hasNext()) {
            int lane = numbers.nextWithin(0, stepOfLane.length - 1);
            int step = stepOfLane[lane];
            if (lane == 0) {
                step = numbers.nextSigned();
                requireClass(numbers.next());
            }
            reach.add(row, step, numbers.nextSigned());
        }
    }

    private void requireClass(int edgeClass) throws Damaged {
        Damaged.unless(edgeClass >= 0 && edgeClass < classes.count(), "a delay of an edge");
    }

    /** Requires that each edge of a vertex leads to a vertex. */
    private void requireEnds(int tile, int place) throws Damaged {
        Cursor cursor = cursor();
        cursor.tile = tile;
        cursor.place = place;
        cursor.open(row(tile, place));
        while (cursor.next()) {
            bases.requireNumber((long) tile + cursor.tileStep, (long) place + cursor.placeStep);
        }
    }

    Cursor cursor() {
        return new Cursor();
    }

    /** What the edges' kinds and delays are. */
    DelayClasses classes() {
        return classes;
    }

    /** Number of different rows. */
    int rowCount() {
        return rows.size();
    }

    /** The row of the vertex at a place of a tile. */
    int row(int tile, int place) {
        return rowOfPlace.get(runOfTile[tile] + place);
    }

    /** For each row, the least step in tiles that an edge of it makes; 0 for none. */
    int[] leastSteps() {
        return extremes(-1);
    }

    /** For each row, the greatest step in tiles that an edge of it makes; 0 for none. */
    int[] greatestSteps() {
        return extremes(1);
    }

    private int[] extremes(int sign) {
        int[] result = new int[rows.size()];
        Cursor cursor = cursor();
        for (int row = 0; row < result.length; row++) {
            cursor.open(row);
            for (boolean any = false; cursor.next(); any = true) {
                int step = cursor.tileStep;
                result[row] = any && sign * step <= sign * result[row] ? result[row] : step;
            }
        }
        return result;
    }

    /** Bytes of the arrays, without the bases. */
    long memory() {
        int ints = runOfTile.length + stepOfLane.length + classOfLane.length;
        return 4L * ints + rowOfPlace.memory() + rows.memory();
    }

    /** Walks over the edges of a vertex. */
    final class Cursor implements EdgeCursor {
        private final byte[] bytes = rows.bytes();
        private int tile;
        private int place;
        private int at;
        private int end;
        private int tileStep;
        private int placeStep;
        private int edgeClass;

        @Override
        public void reset(int vertex) {
            tile = bases.tileOf(vertex);
            place = vertex - bases.first(tile);
            open(row(tile, place));
        }

        private void open(int row) {
            at = rows.start(row);
            end = rows.end(row);
        }

        @Override
        public boolean next() {
            if (at == end) {
                return false;
            }
            // most numbers are one byte, and the call for others would not be worth it
            byte b = bytes[at++];
            int lane = b >= 0 ? b : longer(b);
            if (lane > 0) {
                tileStep = stepOfLane[lane];
                edgeClass = classOfLane[lane];
            } else {
                tileStep = PagedBytes.unfold(longer(bytes[at++]));
                edgeClass = longer(bytes[at++]);
            }
            b = bytes[at++];
            placeStep = PagedBytes.unfold(b >= 0 ? b : longer(b));
            return true;
        }

        /** The number that begins with a byte. */
        private int longer(byte first) {
            int number = first & LOW_MASK;
            byte b = first;
            for (int shift = LOW_BITS; b < 0; shift += LOW_BITS) {
                b = bytes[at++];
                number |= (b & LOW_MASK) << shift;
            }
            return number;
        }

        @Override
        public int other() {
            return bases.first(tile + tileStep) + place + placeStep;
        }

        @Override
        public EdgeKind kind() {
            return classes.kind(edgeClass);
        }

        @Override
        public int delayPs(Corner corner) {
            return classes.delayPs(edgeClass, corner);
        }

        /** The tile of the edge's other end. */
        int tile() {
            return tile + tileStep;
        }

        /** The number of the edge's kind and delay. */
        int edgeClass() {
            return edgeClass;
        }
    }
}
