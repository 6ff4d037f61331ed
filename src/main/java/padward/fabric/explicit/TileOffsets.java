package padward.fabric.explicit;

import java.io.IOException;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * Numbers that are dealt out tile by tile: where each tile's begin, and which tile a number belongs
 * to. 4 bytes a tile and an eighth of a byte a number.
 */
final class TileOffsets {
    private static final int BLOCK_BITS = 5;

    private final int[] first;
    private final int[] tileOfBlock;

    private TileOffsets(int[] first) {
        this.first = first;
        int tiles = first.length - 1;
        tileOfBlock = new int[(first[tiles] >>> BLOCK_BITS) + 2];
        int tile = 0;
        for (int block = 0; block < tileOfBlock.length; block++) {
            while (tile < tiles - 1 && first[tile + 1] <= (long) block << BLOCK_BITS) {
                tile++;
            }
            tileOfBlock[block] = tile;
        }
    }

    /** Counts how many numbers each tile has, given the tile of each. */
    static TileOffsets counting(int tiles, int[] tileOfNumber, int count) {
        int[] first = new int[tiles + 1];
        for (int i = 0; i < count; i++) {
            first[tileOfNumber[i] + 1]++;
        }
        for (int tile = 0; tile < tiles; tile++) {
            first[tile + 1] += first[tile];
        }
        return new TileOffsets(first);
    }

    /** The order of the numbers when they are sorted by tile; equal ones stay in order. */
    int[] order(int[] tileOfNumber, int count) {
        int[] next = first.clone();
        int[] order = new int[count];
        for (int i = 0; i < count; i++) {
            order[next[tileOfNumber[i]]++] = i;
        }
        return order;
    }

    int tiles() {
        return first.length - 1;
    }

    /** How many numbers there are. */
    int count() {
        return first[tiles()];
    }

    /** The first number of a tile; that of the tile behind the last is the count. */
    int first(int tile) {
        return first[tile];
    }

    int size(int tile) {
        return first[tile + 1] - first[tile];
    }

    /** The tile of a number. O(log empty tiles around). */
    int tileOf(int number) {
        int low = tileOfBlock[number >>> BLOCK_BITS];
        int high = tileOfBlock[(number >>> BLOCK_BITS) + 1];
        while (low < high) {
            int middle = (low + high + 1) >>> 1;
            if (first[middle] <= number) {
                low = middle;
            } else {
                high = middle - 1;
            }
        }
        return low;
    }

    /** Bytes of the arrays. */
    long memory() {
        return 4L * (first.length + tileOfBlock.length);
    }

    void write(CompactOut out) throws IOException {
        out.numbers(first);
    }

    static TileOffsets read(CompactIn in, int tiles) throws IOException {
        int[] first = in.risingNumbers();
        Damaged.unless(first.length == tiles + 1 && first[0] == 0, "numbers of tiles");
        return new TileOffsets(first);
    }

    /** Requires that there is a number so many places behind the first one of a tile. */
    void requireNumber(long tile, long place) throws Damaged {
        Damaged.unless(0 <= tile && tile < tiles(), "a tile");
        long number = first[(int) tile] + place;
        Damaged.unless(0 <= number && number < count(), "a number of a tile");
    }

    /** Requires that each tile's run of so many words a number lies within those there are. */
    void requireRuns(int[] runOfTile, int wordsEach, int words) throws Damaged {
        Damaged.unless(runOfTile.length == tiles(), "runs of tiles");
        for (int tile = 0; tile < runOfTile.length; tile++) {
            long end = runOfTile[tile] + (long) wordsEach * size(tile);
            Damaged.unless(runOfTile[tile] >= 0 && end <= words, "a run of a tile");
        }
    }

    /** For each tile one of the same run, which is the tile itself for one of each run. */
    int[] tilesByRun(int[] runOfTile, int words) {
        int[] tileByRun = new int[words + 1];
        int[] result = new int[runOfTile.length];
        for (int tile = 0; tile < result.length; tile++) {
            int run = runOfTile[tile];
            int known = tileByRun[run];
            boolean same = runOfTile[known] == run && size(known) == size(tile);
            result[tile] = same ? known : tile;
            tileByRun[run] = result[tile];
        }
        return result;
    }
}
