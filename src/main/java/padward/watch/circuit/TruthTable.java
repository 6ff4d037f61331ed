package padward.watch.circuit;

import java.util.Arrays;
import java.util.function.IntPredicate;

/**
 * A function of up to 16 inputs as its value in each of the 2^inputs rows. Input i is bit i of a
 * row's number, so that row 0 is the one in which all inputs are low. Immutable.
 */
public final class TruthTable {
    /** Most inputs of a function. */
    public static final int MOST_INPUTS = 16;

    private static final String DIGITS = "0123456789abcdef";

    private final int inputs;

    /** Row r is bit r mod 64 of word r / 64; bits beyond the last row are 0. */
    private final long[] words;

    private TruthTable(int inputs, long[] words) {
        this.inputs = inputs;
        this.words = words;
    }

    /**
     * The function with a given value in each row.
     *
     * @throws IllegalArgumentException unless it has 0 to 16 inputs
     */
    public static TruthTable of(int inputs, IntPredicate valueInRow) {
        if (inputs < 0 || inputs > MOST_INPUTS) {
            throw new IllegalArgumentException(inputs + " inputs, not 0 to " + MOST_INPUTS);
        }
        int rows = 1 << inputs;
        long[] words = new long[(rows + Long.SIZE - 1) / Long.SIZE];
        for (int row = 0; row < rows; row++) {
            if (valueInRow.test(row)) {
                words[row / Long.SIZE] |= 1L << row;
            }
        }
        return new TruthTable(inputs, words);
    }

    /** The function that has always the same value. */
    public static TruthTable constant(boolean value) {
        return of(0, row -> value);
    }

    /** How many inputs it has. */
    public int inputs() {
        return inputs;
    }

    /** How many rows it has. */
    public int rows() {
        return 1 << inputs;
    }

    /** Its value in a row. */
    public boolean value(int row) {
        if (row < 0 || row >= rows()) {
            throw new IllegalArgumentException("row " + row + " of " + rows());
        }
        return (words[row / Long.SIZE] >>> row & 1) != 0;
    }

    /** How many rows are high. */
    public int highRows() {
        return Arrays.stream(words).map(Long::bitCount).mapToInt(count -> (int) count).sum();
    }

    /** Whether it is the same in all rows. */
    public boolean isConstant() {
        int high = highRows();
        return high == 0 || high == rows();
    }

    /** Whether an input can make a difference. */
    public boolean dependsOn(int input) {
        int bit = bit(input);
        for (int row = 0; row < rows(); row++) {
            if ((row & bit) == 0 && value(row) != value(row | bit)) {
                return true;
            }
        }
        return false;
    }

    /** The function of the other inputs, in their order, while one has a fixed value. */
    public TruthTable with(int input, boolean value) {
        int bit = bit(input);
        return of(
                inputs - 1, row -> value((row & bit - 1) | (row & -bit) << 1 | (value ? bit : 0)));
    }

    /** The same function with an added last input that makes no difference. */
    public TruthTable widened() {
        return of(inputs + 1, row -> value(row & rows() - 1));
    }

    /** The function that is high where this one is low. */
    public TruthTable not() {
        return of(inputs, row -> !value(row));
    }

    private int bit(int input) {
        if (input < 0 || input >= inputs) {
            throw new IllegalArgumentException("input " + input + " of " + inputs);
        }
        return 1 << input;
    }

    /** All rows as binary digits, row 0 on the right: {@code 1000} is "and" of two inputs. */
    public String binary() {
        StringBuilder text = new StringBuilder(rows());
        for (int row = rows() - 1; row >= 0; row--) {
            text.append(value(row) ? '1' : '0');
        }
        return text.toString();
    }

    /**
     * All rows as hexadecimal digits, rows 0 to 3 on the right: {@code 8000} is "and" of four
     * inputs. With less than two inputs there is one digit, whose upper bits are 0.
     */
    public String hexadecimal() {
        StringBuilder text = new StringBuilder();
        for (int row = Math.max(0, rows() - 4); row >= 0; row -= 4) {
            text.append(DIGITS.charAt((int) (words[row / Long.SIZE] >>> row & 0xf)));
        }
        return text.toString();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof TruthTable table
                && table.inputs == inputs
                && Arrays.equals(table.words, words);
    }

    @Override
    public int hashCode() {
        return 31 * inputs + Arrays.hashCode(words);
    }

    @Override
    public String toString() {
        return inputs + " inputs, " + hexadecimal();
    }
}
