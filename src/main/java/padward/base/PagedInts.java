package padward.base;

import java.util.Arrays;

/**
 * Whole numbers from 0 on by an index, {@link #NOTHING} where none was put. Pages of 128 are made
 * when first written to, so a few numbers take little and many take 4 bytes each, and nothing is
 * hashed. Reading is for any thread once writing has ended.
 */
public final class PagedInts {
    /** What stands where no number was put. */
    public static final int NOTHING = -1;

    private static final int BITS = 7;
    private static final int MASK = (1 << BITS) - 1;
    private static final int[] EMPTY = page();

    private final int[][] pages;

    /**
     * @param size indices are less than this
     */
    public PagedInts(int size) {
        pages = new int[(size >>> BITS) + 1][];
        Arrays.fill(pages, EMPTY);
    }

    private static int[] page() {
        int[] page = new int[MASK + 1];
        Arrays.fill(page, NOTHING);
        return page;
    }

    /** The number at an index, or {@link #NOTHING}. */
    public int get(int index) {
        return pages[index >>> BITS][index & MASK];
    }

    /** Puts a number, and returns what was there before. */
    public int put(int index, int value) {
        int[] page = pages[index >>> BITS];
        if (page == EMPTY) {
            page = page();
            pages[index >>> BITS] = page;
        }
        int before = page[index & MASK];
        page[index & MASK] = value;
        return before;
    }

    /** Puts a number where there is none, and returns what is there otherwise. */
    public int putIfAbsent(int index, int value) {
        int before = get(index);
        if (before == NOTHING) {
            put(index, value);
        }
        return before;
    }
}
