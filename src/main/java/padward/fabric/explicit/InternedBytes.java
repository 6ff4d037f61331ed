package padward.fabric.explicit;

import it.unimi.dsi.fastutil.HashCommon;
import java.util.Arrays;

/**
 * Byte strings, each kept once in one array and numbered from 0 in the order in which they came. A
 * hash table over the array finds a string's number, so no object is made for any of them.
 *
 * <p>Memory: the bytes, 4 bytes a string, and while they can be found 5 to 11 more. Grows on one
 * thread; once {@link #trim} was called it is safe for all.
 */
final class InternedBytes {
    private static final int[] NO_SLOTS = {};

    private byte[] bytes = new byte[256];
    private int[] start = new int[16];
    private int size;
    private int[] slots = new int[16];

    /** Number of strings. */
    int size() {
        return size;
    }

    /** All strings, one behind the other; not to be changed. */
    byte[] bytes() {
        return bytes;
    }

    /** Where a string begins in {@link #bytes}. */
    int start(int number) {
        return start[number];
    }

    /** One past its last byte. */
    int end(int number) {
        return start[number + 1];
    }

    /** The number of a string, which is added when it is new. O(length). */
    int intern(byte[] text, int length) {
        int slot = slot(text, length);
        if (slots[slot] != 0) {
            return slots[slot] - 1;
        }
        int from = start[size];
        bytes = ArrayGrowth.room(bytes, from, length);
        System.arraycopy(text, 0, bytes, from, length);
        size++;
        start = ArrayGrowth.room(start, size, 1);
        start[size] = from + length;
        slots[slot] = size;
        if (size > slots.length / 4 * 3) {
            rehash();
        }
        return size - 1;
    }

    /** The number of a string, or {@link padward.fabric.Fabric#NOTHING}. O(length). */
    int find(byte[] text, int length) {
        return slots[slot(text, length)] - 1;
    }

    /** The slot of a string, or the empty one where it belongs. */
    private int slot(byte[] text, int length) {
        int mask = slots.length - 1;
        int slot = hash(text, 0, length) & mask;
        while (slots[slot] != 0) {
            int known = slots[slot] - 1;
            if (Arrays.equals(bytes, start[known], start[known + 1], text, 0, length)) {
                return slot;
            }
            slot = slot + 1 & mask;
        }
        return slot;
    }

    private static int hash(byte[] text, int from, int to) {
        int hash = 1;
        for (int i = from; i < to; i++) {
            hash = 31 * hash + text[i];
        }
        return HashCommon.mix(hash);
    }

    private void rehash() {
        int[] wider = new int[ArrayGrowth.twice(slots.length)];
        int mask = wider.length - 1;
        for (int number = 0; number < size; number++) {
            int slot = hash(bytes, start[number], start[number + 1]) & mask;
            while (wider[slot] != 0) {
                slot = slot + 1 & mask;
            }
            wider[slot] = number + 1;
        }
        slots = wider;
    }

    /**
     * Gives back the room to grow.
     *
     * @param findable whether strings are still to be found; if not, the table goes as well
     */
    void trim(boolean findable) {
        bytes = Arrays.copyOf(bytes, start[size]);
        start = Arrays.copyOf(start, size + 1);
        slots = findable ? slots : NO_SLOTS;
    }

    /** Bytes of the arrays. */
    long memory() {
        return bytes.length + 4L * start.length + 4L * slots.length;
    }
}
