package padward.fabric.explicit;

import it.unimi.dsi.fastutil.ints.IntArrays;
import java.io.IOException;
import java.util.Arrays;
import padward.fabric.Fabric;
import padward.fabric.array.ArrayGrowth;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.InternedRuns;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * The names of what is numbered tile by tile, once nothing is added any more. Tiles whose names
 * differ by the place only share one run of names. A name is found in its tile by halving, so no
 * table over all names is needed; names that do not state their own tile are kept apart with one.
 *
 * <p>Memory: the pool, 4 bytes a tile, 8 bytes a name of each different tile. Safe for all threads.
 */
final class TileNames {
    private final int columns;
    private final int rows;
    private final InternedBytes pool;
    private final TileOffsets bases;
    private final int[] runOfTile;

    /** For each place in a run the name's rest, or {@code -1 - n} for the n-th strange name. */
    private final int[] rests;

    /** For each run its places in the order of {@link #rests}. */
    private final int[] sorted;

    private final NameIndex strange;
    private final int[] numberOfStrange;

    /**
     * @param names the names by number as they were added
     * @param order those numbers in the order in which they are numbered now
     */
    TileNames(
            int columns,
            int rows,
            InternedBytes pool,
            NameIndex names,
            int[] order,
            TileOffsets bases) {
        this.columns = columns;
        this.rows = rows;
        this.pool = pool;
        this.bases = bases;
        this.strange = new NameIndex(columns, pool);
        runOfTile = new int[bases.tiles()];
        InternedRuns runs = new InternedRuns();
        int[] places = new int[16];
        int[] strangers = new int[16];
        int[] own = new int[16];
        for (int tile = 0; tile < bases.tiles(); tile++) {
            int first = bases.first(tile);
            int size = bases.size(tile);
            own = ArrayGrowth.room(own, 0, size);
            for (int i = 0; i < size; i++) {
                int number = order[first + i];
                own[i] = names.rest(number);
                if (names.tile(number) != tile) {
                    strangers = ArrayGrowth.room(strangers, strange.size(), 1);
                    strangers[strange.size()] = first + i;
                    own[i] = -1 - strange.add(names.tile(number), own[i]);
                }
            }
            int before = runs.used();
            runOfTile[tile] = runs.intern(own, 0, size);
            if (runs.used() > before) {
                places = ArrayGrowth.room(places, before, size);
                sort(own, places, before, size);
            }
        }
        rests = runs.toArray();
        sorted = Arrays.copyOf(places, rests.length);
        strange.trim();
        numberOfStrange = Arrays.copyOf(strangers, strange.size());
    }

    private TileNames(
            int columns,
            int rows,
            InternedBytes pool,
            TileOffsets bases,
            int[] runOfTile,
            int[] rests,
            int[] sorted,
            NameIndex strange,
            int[] numberOfStrange) {
        this.columns = columns;
        this.rows = rows;
        this.pool = pool;
        this.bases = bases;
        this.runOfTile = runOfTile;
        this.rests = rests;
        this.sorted = sorted;
        this.strange = strange;
        this.numberOfStrange = numberOfStrange;
    }

    void write(CompactOut out) throws IOException {
        strange.write(out);
        out.numbers(numberOfStrange);
        out.numbers(runOfTile);
        out.numbers(rests);
        out.numbers(sorted);
    }

    static TileNames read(
            CompactIn in, int columns, int rows, InternedBytes pool, TileOffsets bases)
            throws IOException {
        NameIndex strange = NameIndex.read(in, columns, columns * rows, pool);
        int[] numberOfStrange = in.numbers(0, bases.count() - 1);
        Damaged.unless(numberOfStrange.length == strange.size(), "names of no tile");
        int[] runOfTile = in.numbers();
        int[] rests = in.numbers(-strange.size(), pool.size() - 1);
        int[] sorted = in.numbers(0, bases.count() - 1);
        bases.requireRuns(runOfTile, 1, rests.length);
        Damaged.unless(sorted.length == rests.length, "order of names");
        int[] tileByRun = bases.tilesByRun(runOfTile, sorted.length);
        for (int tile = 0; tile < runOfTile.length; tile++) {
            int end = runOfTile[tile] + (tileByRun[tile] == tile ? bases.size(tile) : 0);
            for (int i = runOfTile[tile]; i < end; i++) {
                Damaged.unless(sorted[i] < bases.size(tile), "order of names");
            }
        }
        return new TileNames(
                columns, rows, pool, bases, runOfTile, rests, sorted, strange, numberOfStrange);
    }

    private static void sort(int[] rests, int[] places, int start, int size) {
        for (int i = 0; i < size; i++) {
            places[start + i] = i;
        }
        IntArrays.quickSort(
                places, start, start + size, (a, b) -> Integer.compare(rests[a], rests[b]));
    }

    /** The name of a number. */
    String name(int number) {
        int tile = bases.tileOf(number);
        int rest = rests[runOfTile[tile] + number - bases.first(tile)];
        return rest < 0
                ? strange.name(-1 - rest)
                : TileRelativeName.join(
                        pool.bytes(), pool.start(rest), pool.end(rest), tile, columns);
    }

    /** The number of a name, or {@link Fabric#NOTHING}. O(length + log names of a tile). */
    int find(String name) {
        TileRelativeName split = new TileRelativeName(columns, rows).of(name);
        int rest = pool.find(split.bytes(), split.length());
        if (rest == Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        int found = split.tile() == Fabric.NOTHING ? Fabric.NOTHING : find(split.tile(), rest);
        if (found != Fabric.NOTHING) {
            return found;
        }
        int number = strange.find(split.tile(), rest);
        return number == Fabric.NOTHING ? Fabric.NOTHING : numberOfStrange[number];
    }

    private int find(int tile, int rest) {
        int start = runOfTile[tile];
        int low = 0;
        int high = bases.size(tile) - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int place = sorted[start + middle];
            int there = rests[start + place];
            if (there == rest) {
                return bases.first(tile) + place;
            }
            if (there < rest) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        return Fabric.NOTHING;
    }

    /** Bytes of the arrays, without the pool and the bases. */
    long memory() {
        int own = runOfTile.length + rests.length + sorted.length + numberOfStrange.length;
        return 4L * own + strange.memory();
    }
}
