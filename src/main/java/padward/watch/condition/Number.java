package padward.watch.condition;

import java.math.BigInteger;
import java.util.OptionalInt;

/**
 * A number of a condition.
 *
 * @param width its bits, where it states them
 * @param value its value, 0 where a bit does not matter
 * @param ignored the bits that do not matter
 */
record Number(OptionalInt width, BigInteger value, BigInteger ignored) {
    private static final int WIDEST = 256;

    /** A number that cannot be read: what was expected. */
    static final class Malformed extends Exception {
        private static final long serialVersionUID = 1;

        Malformed(String expected) {
            super(expected);
        }
    }

    /**
     * Reads {@code 8h3F}, {@code 8'h3F}, {@code 4b10xx}, {@code 8d63}, {@code 0x3F}, {@code 63}.
     */
    static Number of(String text) throws Malformed {
        int letter = 0;
        while (letter < text.length() && isDigit(text.charAt(letter))) {
            letter++;
        }
        if (letter == text.length()) {
            return plain(new BigInteger(digits(text)));
        }
        String before = text.substring(0, letter);
        if (before.equals("0") && "xX".indexOf(text.charAt(1)) >= 0) {
            return withDigits(text.substring(2), 4, OptionalInt.empty());
        }
        if (before.equals("0") && "bB".indexOf(text.charAt(1)) >= 0) {
            return withDigits(text.substring(2), 1, OptionalInt.empty());
        }
        String rest = text.substring(letter);
        rest = rest.startsWith("'") ? rest.substring(1) : rest;
        OptionalInt width = width(digits(before));
        String digits = rest.isEmpty() ? "" : rest.substring(1);
        Number number =
                switch (rest.isEmpty() ? ' ' : rest.charAt(0)) {
                    case 'h', 'H' -> withDigits(digits, 4, width);
                    case 'b', 'B' -> withDigits(digits, 1, width);
                    case 'd', 'D' -> decimal(digits, width);
                    default -> throw malformed();
                };
        if (number.value.bitLength() > width.getAsInt()) {
            throw new Malformed("a number of " + width.getAsInt() + " bits");
        }
        return number;
    }

    private static Number plain(BigInteger value) {
        return new Number(OptionalInt.empty(), value, BigInteger.ZERO);
    }

    private static Number decimal(String digits, OptionalInt width) throws Malformed {
        String plain = digits(digits);
        if (plain.isEmpty() || !plain.chars().allMatch(c -> isDigit((char) c))) {
            throw malformed();
        }
        return new Number(width, new BigInteger(plain), BigInteger.ZERO);
    }

    private static Number withDigits(String digits, int bits, OptionalInt width) throws Malformed {
        BigInteger value = BigInteger.ZERO;
        BigInteger ignored = BigInteger.ZERO;
        int count = 0;
        for (char c : digits.toCharArray()) {
            if (c == '_') {
                continue;
            }
            boolean any = c == 'x' || c == 'X' || c == '?';
            int digit = any ? 0 : Character.digit(c, 1 << bits);
            if (digit < 0) {
                throw malformed();
            }
            count++;
            value = value.shiftLeft(bits).or(BigInteger.valueOf(digit));
            ignored = ignored.shiftLeft(bits).or(any ? ones(bits) : BigInteger.ZERO);
        }
        if (count == 0 || count * bits >= WIDEST + bits) {
            throw malformed();
        }
        if (width.isPresent() && count * bits >= width.getAsInt() + bits) {
            throw new Malformed(
                    "at most " + (width.getAsInt() + bits - 1) / bits + " digits for its width");
        }
        return new Number(
                width, value, width.isPresent() ? ignored.and(ones(width.getAsInt())) : ignored);
    }

    /** Whether some bit does not matter. */
    boolean masked() {
        return ignored.signum() != 0;
    }

    private static OptionalInt width(String digits) throws Malformed {
        int width = digits.length() > 4 ? 0 : Integer.parseInt(digits);
        if (width < 1 || width > WIDEST) {
            throw new Malformed("a width of 1 to " + WIDEST + " bits");
        }
        return OptionalInt.of(width);
    }

    static BigInteger ones(int bits) {
        return BigInteger.ONE.shiftLeft(bits).subtract(BigInteger.ONE);
    }

    private static String digits(String text) {
        return text.replace("_", "");
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    private static Malformed malformed() {
        return new Malformed("a number, such as 8h3F, 4b10xx or 63");
    }
}
