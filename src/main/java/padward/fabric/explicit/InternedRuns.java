package padward.fabric.explicit;

import it.unimi.dsi.fastutil.HashCommon;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;

/**
 * Runs of numbers, equal ones kept once, one behind the other in one array. What repeated tiles
 * have in common is such a run: a tile then costs no more than where its run begins. Made on one
 * thread.
 */
final class InternedRuns {
    private int[] words = new int[256];
    private int used;
    private final IntArrayList starts = new IntArrayList();
    private final IntArrayList lengths = new IntArrayList();
    private int[] slots = new int[16];

    /** Numbers in all runs so far: where the next new run will begin. */
    int used() {
        return used;
    }

    /** Where a run begins, which is added when it is new. O(length). */
    int intern(int[] from, int offset, int length) {
        int mask = slots.length - 1;
        int slot = hash(from, offset, length) & mask;
        while (slots[slot] != 0) {
            int known = slots[slot] - 1;
            int start = starts.getInt(known);
            if (lengths.getInt(known) == length
                    && Arrays.equals(words, start, start + length, from, offset, offset + length)) {
                return start;
            }
            slot = slot + 1 & mask;
        }
        words = ArrayGrowth.room(words, used, length);
        System.arraycopy(from, offset, words, used, length);
        starts.add(used);
        lengths.add(length);
        slots[slot] = starts.size();
        used += length;
        if (starts.size() > slots.length / 4 * 3) {
            rehash();
        }
        return starts.getInt(starts.size() - 1);
    }

    private static int hash(int[] words, int offset, int length) {
        int hash = 1;
        for (int i = offset; i < offset + length; i++) {
            hash = 31 * hash + words[i];
        }
        return HashCommon.mix(hash);
    }

    private void rehash() {
        int[] wider = new int[ArrayGrowth.twice(slots.length)];
        int mask = wider.length - 1;
        for (int run = 0; run < starts.size(); run++) {
            int slot = hash(words, starts.getInt(run), lengths.getInt(run)) & mask;
            while (wider[slot] != 0) {
                slot = slot + 1 & mask;
            }
            wider[slot] = run + 1;
        }
        slots = wider;
    }

    /** All runs, in an array of just their length. */
    int[] toArray() {
        return Arrays.copyOf(words, used);
    }
}
