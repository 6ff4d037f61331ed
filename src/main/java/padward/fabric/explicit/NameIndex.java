package padward.fabric.explicit;

import it.unimi.dsi.fastutil.HashCommon;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.io.IOException;
import padward.fabric.Fabric;
import padward.fabric.array.InternedBytes;
import padward.fabric.array.NumberTable;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * Names by number and numbers by name. A name is kept as the tile that it states and the number of
 * the rest in a pool, which names of many tiles share; a hash table over these pairs finds it.
 *
 * <p>Memory: the pool, 8 bytes a name, and 5 to 11 for the table. Grows on one thread; what only
 * reads is safe for all threads while nothing is added.
 */
final class NameIndex {
    private final int columns;
    private final InternedBytes pool;
    private final IntArrayList tiles = new IntArrayList();
    private final IntArrayList rests = new IntArrayList();
    private final NumberTable numbers = new NumberTable();

    NameIndex(int columns, InternedBytes pool) {
        this.columns = columns;
        this.pool = pool;
    }

    int size() {
        return tiles.size();
    }

    /** The tile that a name states, or {@link Fabric#NOTHING}. */
    int tile(int number) {
        return tiles.getInt(number);
    }

    /** The number in the pool of what the name is without the tile. */
    int rest(int number) {
        return rests.getInt(number);
    }

    String name(int number) {
        int rest = rest(number);
        return TileRelativeName.join(
                pool.bytes(), pool.start(rest), pool.end(rest), tile(number), columns);
    }

    /** Adds a name; its number, or {@link Fabric#NOTHING} when it is there already. */
    int add(TileRelativeName name) {
        return add(name.tile(), pool.intern(name.bytes(), name.length()));
    }

    /** As {@link #add(TileRelativeName)}, for a name whose rest is in the pool. */
    int add(int tile, int rest) {
        if (find(tile, rest) != Fabric.NOTHING) {
            return Fabric.NOTHING;
        }
        tiles.add(tile);
        rests.add(rest);
        numbers.add(hash(tile, rest), number -> hash(tile(number), rest(number)));
        return size() - 1;
    }

    /** The number of a name, or {@link Fabric#NOTHING}. */
    int find(TileRelativeName name) {
        int rest = pool.find(name.bytes(), name.length());
        return rest == Fabric.NOTHING ? Fabric.NOTHING : find(name.tile(), rest);
    }

    /** As {@link #find(TileRelativeName)}, for a name whose rest is in the pool. */
    int find(int tile, int rest) {
        return numbers.find(
                hash(tile, rest), number -> tile(number) == tile && rest(number) == rest);
    }

    private static int hash(int tile, int rest) {
        return (int) HashCommon.mix((long) tile << Integer.SIZE | rest);
    }

    /** Releases the room to grow. */
    void trim() {
        tiles.trim();
        rests.trim();
    }

    /** Bytes of the arrays, without the pool. */
    long memory() {
        return 4L * (tiles.elements().length + rests.elements().length) + numbers.memory();
    }

    void write(CompactOut out) throws IOException {
        out.numbers(tiles.toIntArray());
        out.numbers(rests.toIntArray());
    }

    static NameIndex read(CompactIn in, int columns, int tiles, InternedBytes pool)
            throws IOException {
        NameIndex result = new NameIndex(columns, pool);
        int[] stated = in.numbers(Fabric.NOTHING, tiles - 1);
        int[] rests = in.numbers(0, pool.size() - 1);
        Damaged.unless(stated.length == rests.length, "names without a rest");
        int[] hashes = new int[rests.length];
        for (int number = 0; number < rests.length; number++) {
            hashes[number] = hash(stated[number], rests[number]);
        }
        result.tiles.addElements(0, stated);
        result.rests.addElements(0, rests);
        result.trim();
        result.numbers.addAll(hashes);
        return result;
    }
}
