package padward.fabric.explicit;

import java.io.IOException;
import padward.fabric.array.ArrayGrowth;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.InternedRuns;
import padward.fabric.array.PagedBytes;
import padward.fabric.array.RowNumbers;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * A row of whole numbers from 0 for each thing that is numbered tile by tile; most of them short,
 * many of them empty. What a row says is relative to its tile, so that equal rows, and equal runs
 * of rows, which repeated tiles have in plenty, are stored once.
 *
 * <p>Memory: 4 bytes a tile; 2 bytes for each thing of each different tile, 4 where there are more
 * than 65,536 different rows; 4 bytes and some one or two a number for each different row. Safe for
 * all threads.
 */
final class TileRows {
    private static final int LOW_BITS = 7;
    private static final int LOW_MASK = (1 << LOW_BITS) - 1;
    private static final int MOST_BYTES = 5;

    private final TileOffsets bases;
    private final int[] runOfTile;
    private final RowNumbers rowOfPlace;
    private final InternedBytes rows;

    private TileRows(
            TileOffsets bases, int[] runOfTile, RowNumbers rowOfPlace, InternedBytes rows) {
        this.bases = bases;
        this.runOfTile = runOfTile;
        this.rowOfPlace = rowOfPlace;
        this.rows = rows;
    }

    /** Collects rows; things that are given none have an empty one. Belongs to one thread. */
    static final class Maker {
        private final TileOffsets bases;
        private final InternedBytes rows = new InternedBytes();
        private final int[] rowOfThing;
        private byte[] row = new byte[64];
        private int length;

        Maker(TileOffsets bases) {
            this.bases = bases;
            this.rowOfThing = new int[bases.count()];
            rows.intern(row, 0);
        }

        /** Adds a number to the row that is being made, taken as unsigned. */
        void add(int number) {
            row = ArrayGrowth.room(row, length, MOST_BYTES);
            int rest = number;
            while ((rest & ~LOW_MASK) != 0) {
                row[length++] = (byte) (rest | LOW_MASK + 1);
                rest >>>= LOW_BITS;
            }
            row[length++] = (byte) rest;
        }

        /** Adds a number of either sign. */
        void addSigned(int number) {
            add(PagedBytes.fold(number));
        }

        /** Ends the row, which is that of a thing. */
        void end(int thing) {
            rowOfThing[thing] = rows.intern(row, length);
            length = 0;
        }

        TileRows make() {
            rows.trim(false);
            int[] runOfTile = new int[bases.tiles()];
            InternedRuns runs = new InternedRuns();
            for (int tile = 0; tile < runOfTile.length; tile++) {
                runOfTile[tile] = runs.intern(rowOfThing, bases.first(tile), bases.size(tile));
            }
            RowNumbers numbers = new RowNumbers(runs.toArray(), rows.size());
            return new TileRows(bases, runOfTile, numbers, rows);
        }
    }

    /** The tile of a thing. */
    int tile(int thing) {
        return bases.tileOf(thing);
    }

    /** The number of the row of a thing of a tile; 0 when it is empty. */
    int row(int tile, int thing) {
        return rowAt(tile, thing - bases.first(tile));
    }

    /** The same, by the thing's place in the tile. */
    int rowAt(int tile, int place) {
        return rowOfPlace.get(runOfTile[tile] + place);
    }

    /** Walks over the numbers of rows. Belongs to one thread. */
    Numbers numbers() {
        return new Numbers();
    }

    /** Walks over the numbers of rows. */
    final class Numbers {
        private final byte[] bytes = rows.bytes();
        private int at;
        private int end;

        /** Goes to the start of a row. */
        Numbers open(int row) {
            at = rows.start(row);
            end = rows.end(row);
            return this;
        }

        boolean hasNext() {
            return at < end;
        }

        int next() {
            byte b = bytes[at++];
            if (b >= 0) {
                return b;
            }
            int number = b & LOW_MASK;
            for (int shift = LOW_BITS; b < 0; shift += LOW_BITS) {
                b = bytes[at++];
                number |= (b & LOW_MASK) << shift;
            }
            return number;
        }

        int nextSigned() {
            return PagedBytes.unfold(next());
        }
    }

    void write(CompactOut out) throws IOException {
        rows.write(out);
        rowOfPlace.write(out);
        out.numbers(runOfTile);
    }

    /** Reads what was written; what is in the rows is for others to check. */
    static TileRows read(CompactIn in, TileOffsets bases) throws IOException {
        InternedBytes rows = InternedBytes.read(in, false);
        Damaged.unless(rows.size() > 0 && rows.end(0) == 0, "the empty row");
        RowNumbers rowOfPlace = RowNumbers.read(in, rows.size());
        int[] runOfTile = in.numbers();
        bases.requireRuns(runOfTile, 1, rowOfPlace.size());
        return new TileRows(bases, runOfTile, rowOfPlace, rows);
    }

    /** Number of different rows, with the empty one. */
    int rowCount() {
        return rows.size();
    }

    /** Walks over the numbers of rows that may be anything. */
    CheckedNumbers checkedNumbers() {
        return new CheckedNumbers(rows);
    }

    /** Requires that the rows of all things lead to numbers that there are. */
    void require(RowReach reach, RowReach.ExactCheck exact) throws Damaged {
        reach.require(bases, runOfTile, rowOfPlace, exact);
    }

    /** Bytes of the arrays, without the bases. */
    long memory() {
        return 4L * runOfTile.length + rowOfPlace.memory() + rows.memory();
    }
}
