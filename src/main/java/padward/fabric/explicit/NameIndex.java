package padward.fabric.explicit;

import it.unimi.dsi.fastutil.HashCommon;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import padward.fabric.Fabric;

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
    private int[] slots = new int[16];

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
        int slot = slot(tile, rest);
        if (slots[slot] != 0) {
            return Fabric.NOTHING;
        }
        tiles.add(tile);
        rests.add(rest);
        slots[slot] = size();
        if (size() > slots.length / 4 * 3) {
            rehash();
        }
        return size() - 1;
    }

    /** The number of a name, or {@link Fabric#NOTHING}. */
    int find(TileRelativeName name) {
        int rest = pool.find(name.bytes(), name.length());
        return rest == Fabric.NOTHING ? Fabric.NOTHING : find(name.tile(), rest);
    }

    /** As {@link #find(TileRelativeName)}, for a name whose rest is in the pool. */
    int find(int tile, int rest) {
        return slots[slot(tile, rest)] - 1;
    }

    private int slot(int tile, int rest) {
        int mask = slots.length - 1;
        int slot = hash(tile, rest) & mask;
        while (slots[slot] != 0
                && (tile(slots[slot] - 1) != tile || rest(slots[slot] - 1) != rest)) {
            slot = slot + 1 & mask;
        }
        return slot;
    }

    private static int hash(int tile, int rest) {
        return (int) HashCommon.mix((long) tile << Integer.SIZE | rest);
    }

    private void rehash() {
        int[] wider = new int[ArrayGrowth.twice(slots.length)];
        int mask = wider.length - 1;
        for (int number = 0; number < size(); number++) {
            int slot = hash(tile(number), rest(number)) & mask;
            while (wider[slot] != 0) {
                slot = slot + 1 & mask;
            }
            wider[slot] = number + 1;
        }
        slots = wider;
    }

    /** Gives back the room to grow. */
    void trim() {
        tiles.trim();
        rests.trim();
    }

    /** Bytes of the arrays, without the pool. */
    long memory() {
        return 4L * (tiles.elements().length + rests.elements().length + slots.length);
    }
}
