package padward.fabric.array;

import java.util.ArrayList;
import java.util.List;

/**
 * Whole numbers written one after the other, small ones short (LEB128, as the DWARF Debugging
 * Information Format, version 5, section 7.6, has it), and read once in the same order. Grows by
 * pages, so that nothing is copied and no more than a page lies unused.
 */
public final class PagedBytes {
    private static final int PAGE = 1 << 14;
    private static final int LOW_BITS = 7;
    private static final int MORE = 1 << LOW_BITS;

    private final List<byte[]> pages = new ArrayList<>();
    private byte[] page = {};
    private int at;
    private int pageRead;

    /** Writes a number from 0 to 2³² − 1, taken as unsigned. */
    public void add(int number) {
        int rest = number;
        while ((rest & -MORE) != 0) {
            addByte((byte) (rest | MORE));
            rest >>>= LOW_BITS;
        }
        addByte((byte) rest);
    }

    /** Writes a number of either sign, small ones short. */
    public void addSigned(int number) {
        add(fold(number));
    }

    /** 0, −1, 1, −2, … as 0, 1, 2, 3, … */
    public static int fold(int number) {
        return number << 1 ^ number >> Integer.SIZE - 1;
    }

    /** Undoes {@link #fold}. */
    public static int unfold(int number) {
        return number >>> 1 ^ -(number & 1);
    }

    /** The number from one position to before another. */
    public static int number(byte[] bytes, int start, int end) {
        int number = 0;
        for (int at = end - 1; at >= start; at--) {
            number = number << LOW_BITS | bytes[at] & MORE - 1;
        }
        return number;
    }

    private void addByte(byte value) {
        if (at == page.length) {
            page = new byte[PAGE];
            pages.add(page);
            at = 0;
        }
        page[at++] = value;
    }

    /** Begins to read; nothing is written any more. */
    public void rewind() {
        pageRead = 0;
        at = 0;
        page = pages.isEmpty() ? page : pages.get(0);
    }

    /** Reads the next number. */
    public int next() {
        int number = 0;
        for (int shift = 0; ; shift += LOW_BITS) {
            int value = nextByte();
            number |= (value & MORE - 1) << shift;
            if (value >= 0) {
                return number;
            }
        }
    }

    /** Reads the next number that was written with its sign. */
    public int nextSigned() {
        return unfold(next());
    }

    private byte nextByte() {
        if (at == page.length) {
            page = pages.get(++pageRead);
            at = 0;
        }
        return page[at++];
    }
}
