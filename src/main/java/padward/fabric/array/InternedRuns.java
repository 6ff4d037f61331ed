package padward.fabric.array;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import padward.fabric.Fabric;

/**
 * Runs of numbers, equal ones kept once, one behind the other in one array. What repeated tiles
 * have in common is such a run: a tile then costs no more than where its run begins. Made on one
 * thread.
 */
public final class InternedRuns {
    private int[] words = new int[256];
    private int used;
    private final IntArrayList starts = new IntArrayList();
    private final IntArrayList lengths = new IntArrayList();
    private final NumberTable numbers = new NumberTable();

    /** Numbers in all runs so far: where the next new run will begin. */
    public int used() {
        return used;
    }

    /** Where a run begins, which is added when it is new. O(length). */
    public int intern(int[] from, int offset, int length) {
        int hash = hash(from, offset, length);
        int known = numbers.find(hash, run -> isAt(run, from, offset, length));
        if (known != Fabric.NOTHING) {
            return starts.getInt(known);
        }
        words = ArrayGrowth.room(words, used, length);
        System.arraycopy(from, offset, words, used, length);
        starts.add(used);
        lengths.add(length);
        used += length;
        numbers.add(hash, run -> hash(words, starts.getInt(run), lengths.getInt(run)));
        return starts.getInt(starts.size() - 1);
    }

    private boolean isAt(int run, int[] from, int offset, int length) {
        int start = starts.getInt(run);
        return lengths.getInt(run) == length
                && Arrays.equals(words, start, start + length, from, offset, offset + length);
    }

    private static int hash(int[] words, int offset, int length) {
        int hash = 1;
        for (int i = offset; i < offset + length; i++) {
            hash = 31 * hash + words[i];
        }
        return hash;
    }

    /** All runs, in an array of just their length. */
    public int[] toArray() {
        return Arrays.copyOf(words, used);
    }
}
