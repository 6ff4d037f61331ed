package padward.fabric.array;

import java.util.Arrays;

/** Room for more in primitive arrays; what does not fit an array ends as the JVM ends it. */
public final class ArrayGrowth {
    private static final int LONGEST = Integer.MAX_VALUE - 8;

    private ArrayGrowth() {}

    /** The array, or a copy half as long again, with room for {@code more} from {@code used}. */
    public static byte[] room(byte[] array, int used, int more) {
        return used + (long) more <= array.length
                ? array
                : Arrays.copyOf(array, length(array.length, used + (long) more));
    }

    /** As {@link #room(byte[], int, int)}. */
    public static int[] room(int[] array, int used, int more) {
        return used + (long) more <= array.length
                ? array
                : Arrays.copyOf(array, length(array.length, used + (long) more));
    }

    private static int length(int now, long needed) {
        if (needed > LONGEST) {
            throw new OutOfMemoryError("an array of " + needed + " entries");
        }
        return (int) Math.min(LONGEST, Math.max(needed, now + (now >> 1)));
    }

    /** Twice a power of two. */
    public static int twice(int length) {
        if (length > LONGEST / 2) {
            throw new OutOfMemoryError("a table of " + 2L * length + " entries");
        }
        return 2 * length;
    }
}
