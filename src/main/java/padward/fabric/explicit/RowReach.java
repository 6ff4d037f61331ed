package padward.fabric.explicit;

import java.util.Arrays;
import padward.fabric.array.RowNumbers;
import padward.fabric.compact.Damaged;

/**
 * How far the rows of a compact copy lead, so that not every number of every vertex's row has to be
 * followed to see that it leads to something there is. Things are numbered tile by tile: where a
 * row's least and greatest step in tiles and in places lead to numbers that there are, all of it
 * does. Only near the first and the last numbers this may be in doubt, and is left to an exact
 * check.
 */
final class RowReach {
    /** Follows one row. */
    @FunctionalInterface
    interface ExactCheck {
        /**
         * Requires that the row of a thing leads to things that there are.
         *
         * @param tile the thing's tile
         * @param place its place in the tile
         */
        void require(int tile, int place) throws Damaged;
    }

    private final TileOffsets targets;
    private final boolean fromPlace;
    private final int[] leastStep;
    private final int[] greatestStep;
    private final int[] leastPlace;
    private final int[] greatestPlace;

    /**
     * @param rows how many rows there are; none of them leads anywhere yet
     * @param targets the numbers to which they lead
     * @param fromPlace whether they state steps from a thing's own place, not places
     */
    RowReach(int rows, TileOffsets targets, boolean fromPlace) {
        this.targets = targets;
        this.fromPlace = fromPlace;
        leastStep = new int[rows];
        greatestStep = new int[rows];
        leastPlace = new int[rows];
        greatestPlace = new int[rows];
        Arrays.fill(leastStep, Integer.MAX_VALUE);
        Arrays.fill(greatestStep, Integer.MIN_VALUE);
        Arrays.fill(leastPlace, Integer.MAX_VALUE);
        Arrays.fill(greatestPlace, Integer.MIN_VALUE);
    }

    /** Notes that a row leads so many tiles on, and so many places on or to a place. */
    void add(int row, int tileStep, int place) {
        // plain comparisons: most of this runs before it is compiled
        if (tileStep < leastStep[row]) {
            leastStep[row] = tileStep;
        }
        if (tileStep > greatestStep[row]) {
            greatestStep[row] = tileStep;
        }
        if (place < leastPlace[row]) {
            leastPlace[row] = place;
        }
        if (place > greatestPlace[row]) {
            greatestPlace[row] = place;
        }
    }

    /** Requires that each thing's row leads to numbers that there are. */
    void require(TileOffsets things, int[] runOfTile, RowNumbers rowOfPlace, ExactCheck exact)
            throws Damaged {
        for (int tile = 0; tile < runOfTile.length; tile++) {
            int size = things.size(tile);
            int place = firstInDoubt(tile, runOfTile[tile], 0, size, rowOfPlace);
            while (place < size) {
                exact.require(tile, place);
                place = firstInDoubt(tile, runOfTile[tile], place + 1, size, rowOfPlace);
            }
        }
    }

    /** Of the places of a tile from one on, the first whose row may lead too far, or the end. */
    private int firstInDoubt(int tile, int run, int start, int end, RowNumbers rowOfPlace) {
        int place = start;
        while (place < end && isSure(rowOfPlace.get(run + place), tile, fromPlace ? place : 0)) {
            place++;
        }
        return place;
    }

    private boolean isSure(int row, int tile, int place) {
        if (leastStep[row] > greatestStep[row]) {
            return true; // it is empty
        }
        long low = (long) tile + leastStep[row];
        long high = (long) tile + greatestStep[row];
        return low >= 0
                && high < targets.tiles()
                && (long) targets.first((int) low) + place + leastPlace[row] >= 0
                && (long) targets.first((int) high) + place + greatestPlace[row] < targets.count();
    }
}
