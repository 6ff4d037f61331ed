package padward.fabric.array;

import java.io.IOException;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;

/**
 * Numbers of rows: in two bytes each where there are few enough rows, as in most fabrics, else in
 * four. Immutable, safe for all threads.
 */
public final class RowNumbers {
    private static final int FEW = 1 << Character.SIZE;

    private final char[] narrow;
    private final int[] wide;

    /**
     * @param rows how many rows there are: one more than the greatest number can be
     */
    public RowNumbers(int[] numbers, int rows) {
        boolean few = rows <= FEW;
        wide = few ? new int[0] : numbers;
        narrow = new char[few ? numbers.length : 0];
        for (int i = 0; i < narrow.length; i++) {
            narrow[i] = (char) numbers[i];
        }
    }

    private RowNumbers(char[] narrow, int[] wide) {
        this.narrow = narrow;
        this.wide = wide;
    }

    public int get(int index) {
        return index < narrow.length ? narrow[index] : wide[index];
    }

    public int size() {
        return narrow.length + wide.length;
    }

    /** Bytes of the array. */
    public long memory() {
        return 2L * narrow.length + 4L * wide.length;
    }

    /** Writes it, to be read by {@link #read}. */
    public void write(CompactOut out) throws IOException {
        out.flag(wide.length == 0);
        if (wide.length == 0) {
            out.narrowNumbers(narrow);
        } else {
            out.numbers(wide);
        }
    }

    /** Reads what was written. */
    public static RowNumbers read(CompactIn in, int rows) throws IOException {
        return in.flag()
                ? new RowNumbers(in.narrowNumbers(rows - 1), new int[0])
                : new RowNumbers(new char[0], in.numbers(0, rows - 1));
    }
}
