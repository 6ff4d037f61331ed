package padward.fabric.explicit;

import padward.fabric.DelayClasses;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.delay.Corner;

/**
 * Edges of an explicit fabric in one direction. A tile has a run of row numbers, one a vertex, and
 * a row its edges as bytes ({@link RowPool}); equal runs and equal rows, which repeated tiles have
 * in plenty, are stored once.
 *
 * <p>Memory: 4 bytes a tile; 4 bytes for each vertex of each different tile; 4 bytes and some 2 to
 * 5 an edge for each different row. Where no two tiles are alike that is some 8 bytes a vertex and
 * 3 an edge.
 */
final class EdgeRows {
    private static final int LOW_BITS = 7;
    private static final int LOW_MASK = (1 << LOW_BITS) - 1;

    private final TileOffsets bases;
    private final DelayClasses classes;
    private final int[] runOfTile;
    private final int[] rowOfPlace;
    private final InternedBytes rows;
    private final int[] stepOfLane;
    private final int[] classOfLane;

    EdgeRows(
            TileOffsets bases,
            DelayClasses classes,
            int[] runOfTile,
            int[] rowOfPlace,
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
        return rowOfPlace[runOfTile[tile] + place];
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
        int ints = runOfTile.length + rowOfPlace.length + stepOfLane.length + classOfLane.length;
        return 4L * ints + rows.memory();
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
