package padward.fabric.explicit;

import padward.fabric.array.InternedBytes;
import padward.fabric.array.PagedBytes;
import padward.fabric.compact.Damaged;

/**
 * Walks over the numbers of rows of a compact copy, of which nothing is known yet. Belongs to one
 * thread.
 */
final class CheckedNumbers {
    private static final int LOW_BITS = 7;
    private static final int LOW_MASK = (1 << LOW_BITS) - 1;

    private final InternedBytes rows;
    private final byte[] bytes;
    private int at;
    private int end;

    CheckedNumbers(InternedBytes rows) {
        this.rows = rows;
        this.bytes = rows.bytes();
    }

    /** Goes to the start of a row. */
    void open(int row) {
        at = rows.start(row);
        end = rows.end(row);
    }

    boolean hasNext() {
        return at < end;
    }

    /**
     * The next number, which is negative from 2³¹ on.
     *
     * @throws Damaged when the row ends before it, or within it, or it has more than 32 bits
     */
    int next() throws Damaged {
        if (at >= end) {
            throw new Damaged("a row cut short");
        }
        byte b = bytes[at++];
        return b >= 0 ? b : longer(b);
    }

    private int longer(byte first) throws Damaged {
        int number = first & LOW_MASK;
        byte b = first;
        for (int shift = LOW_BITS; b < 0; shift += LOW_BITS) {
            Damaged.unless(at < end && shift < Integer.SIZE, "a number of a row");
            b = bytes[at++];
            number |= (b & LOW_MASK) << shift;
        }
        return number;
    }

    /** The next number, which was written with its sign. */
    int nextSigned() throws Damaged {
        return PagedBytes.unfold(next());
    }

    /** The next number, which has to be in a range. */
    int nextWithin(int least, int most) throws Damaged {
        int number = next();
        if (number < least || number > most) {
            throw new Damaged("a number out of range");
        }
        return number;
    }
}
