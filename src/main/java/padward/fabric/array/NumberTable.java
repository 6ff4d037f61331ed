package padward.fabric.array;

import it.unimi.dsi.fastutil.HashCommon;
import java.util.function.IntPredicate;
import java.util.function.IntUnaryOperator;
import padward.fabric.Fabric;

/**
 * Finds the number of a thing that is kept elsewhere, by a hash of it: a hash table with open
 * addressing and linear probing (Knuth, The Art of Computer Programming 3, section 6.4, Algorithm
 * L). It contains numbers alone, 4 bytes a slot, and is at most three quarters full. Numbers are
 * given from 0 in the order in which things are added.
 *
 * <p>A number needs no more bits than say which slot; the other bits of its slot are those of its
 * hash that do not. So nearly all other things are passed without a look at them, which would be a
 * look at another place in memory.
 *
 * <p>Grows on one thread; what only reads is safe for all threads while nothing is added.
 */
public final class NumberTable {
    private static final int FIRST_SLOTS = 16;

    /** By slot: a number plus 1, with bits of its hash above it; 0 for an empty slot. */
    private int[] slots = new int[FIRST_SLOTS];

    private int size;

    /**
     * The number of a thing, or {@link Fabric#NOTHING}. O(1) on average.
     *
     * @param hash hash of the thing; its bits need not be mixed
     * @param isSame whether a number is that of an equal thing
     */
    public int find(int hash, IntPredicate isSame) {
        int mask = slots.length - 1;
        int mixed = HashCommon.mix(hash);
        int slot = mixed & mask;
        while (slots[slot] != 0) {
            if (((slots[slot] ^ mixed) & ~mask) == 0 && isSame.test((slots[slot] & mask) - 1)) {
                return (slots[slot] & mask) - 1;
            }
            slot = slot + 1 & mask;
        }
        return Fabric.NOTHING;
    }

    /**
     * Adds a thing that is not in the table, under the next number. O(1) on average.
     *
     * @param hash hash of the thing
     * @param hashOf hash of the thing of any number that was given before
     */
    public void add(int hash, IntUnaryOperator hashOf) {
        put(slots, hash, size++);
        if (size > slots.length / 4 * 3) {
            int[] wider = new int[ArrayGrowth.twice(slots.length)];
            for (int number = 0; number < size; number++) {
                put(wider, hashOf.applyAsInt(number), number);
            }
            slots = wider;
        }
    }

    /** Adds the first things, by their hashes. O(1) on average for each. */
    public void addAll(int[] hashes) {
        int wide = FIRST_SLOTS;
        while (hashes.length > wide / 4 * 3) {
            wide = ArrayGrowth.twice(wide);
        }
        slots = new int[wide];
        for (int hash : hashes) {
            put(slots, hash, size++);
        }
    }

    private static void put(int[] slots, int hash, int number) {
        int mask = slots.length - 1;
        int mixed = HashCommon.mix(hash);
        int slot = mixed & mask;
        while (slots[slot] != 0) {
            slot = slot + 1 & mask;
        }
        slots[slot] = mixed & ~mask | number + 1;
    }

    /** Forgets everything, so that the memory can be reclaimed. */
    public void clear() {
        slots = new int[0];
        size = 0;
    }

    /** Bytes of the array. */
    public long memory() {
        return 4L * slots.length;
    }
}
