package padward.fabric.explicit;

import java.util.Arrays;
import padward.fabric.Fabric;

/**
 * A name taken apart into the tile that it states and the rest: {@code x3y4/run1_e[5]} is tile (3,
 * 4) and {@code …/run1_e[5]}, which tiles of the same type have in common. The place may stand
 * anywhere in the name, both letters small or both capital; the first that is on the grid and has
 * no leading zeros counts, so that {@link #join} returns exactly the same name. One object is used
 * for many names; it belongs to one thread.
 */
final class TileRelativeName {
    /** Stand for the place; no encoded character has these bytes. */
    private static final byte LOWER = (byte) 0xff;

    private static final byte UPPER = (byte) 0xfe;

    private static final int MOST_DIGITS = 5;
    private static final int BYTES_A_CHAR = 3;

    private final int columns;
    private final int rows;
    private char[] chars = new char[64];
    private byte[] bytes = new byte[64];
    private int length;
    private int tile;

    TileRelativeName(int columns, int rows) {
        this.columns = columns;
        this.rows = rows;
    }

    /** The rest of the name; its first {@link #length} bytes count. */
    byte[] bytes() {
        return bytes;
    }

    int length() {
        return length;
    }

    /** The tile that the name states, or {@link Fabric#NOTHING}. */
    int tile() {
        return tile;
    }

    /** Takes a name apart. O(length). */
    TileRelativeName of(String name) {
        if (chars.length < name.length()) {
            chars = new char[name.length()];
        }
        name.getChars(0, name.length(), chars, 0);
        return of(chars, 0, name.length());
    }

    /** Takes the name apart that stands from one position to before another. O(length). */
    TileRelativeName of(char[] name, int from, int to) {
        length = 0;
        tile = Fabric.NOTHING;
        if (bytes.length < (to - from) * BYTES_A_CHAR) {
            bytes = new byte[(to - from) * BYTES_A_CHAR];
        }
        int at = from;
        while (at < to) {
            char c = name[at];
            int behind =
                    tile == Fabric.NOTHING && (c == 'x' || c == 'X') ? place(name, at, to) : at;
            if (behind > at) {
                bytes[length++] = c == 'x' ? LOWER : UPPER;
                at = behind;
            } else if (c < 0x80) {
                bytes[length++] = (byte) c;
                at++;
            } else {
                encode(c);
                at++;
            }
        }
        return this;
    }

    /** Takes a place at a position as the tile; the position behind it, or the same for none. */
    private int place(char[] name, int at, int to) {
        char second = name[at] == 'x' ? 'y' : 'Y';
        int middle = digits(name, at + 1, to);
        if (middle == at + 1 || middle == to || name[middle] != second) {
            return at;
        }
        int end = digits(name, middle + 1, to);
        if (end == middle + 1) {
            return at;
        }
        int x = number(name, at + 1, middle);
        int y = number(name, middle + 1, end);
        if (x >= columns || y >= rows) {
            return at;
        }
        tile = y * columns + x;
        return end;
    }

    /** The end of a number without leading zeros, or its start when there is none. */
    private static int digits(char[] name, int start, int to) {
        int end = start;
        while (end < to && name[end] >= '0' && name[end] <= '9') {
            end++;
        }
        boolean padded = end - start > 1 && name[start] == '0';
        return padded || end - start > MOST_DIGITS ? start : end;
    }

    private static int number(char[] digits, int from, int to) {
        int number = 0;
        for (int i = from; i < to; i++) {
            number = 10 * number + digits[i] - '0';
        }
        return number;
    }

    /**
     * As UTF-8, but for surrogates, which are encoded one by one, so that every text comes back.
     */
    private void encode(char c) {
        if (c < 0x80) {
            bytes[length++] = (byte) c;
        } else if (c < 0x800) {
            bytes[length++] = (byte) (0xc0 | c >> 6);
            bytes[length++] = (byte) (0x80 | c & 0x3f);
        } else {
            bytes[length++] = (byte) (0xe0 | c >> 12);
            bytes[length++] = (byte) (0x80 | c >> 6 & 0x3f);
            bytes[length++] = (byte) (0x80 | c & 0x3f);
        }
    }

    /** Whether bytes are what is left of a name: whole characters, one place at the most. */
    static boolean isWhole(byte[] bytes, int start, int end) {
        int places = 0;
        int at = start;
        while (at < end) {
            byte b = bytes[at];
            if (b >= 0) {
                at++;
            } else if (b == LOWER || b == UPPER) {
                places++;
                at++;
            } else {
                at += (b & 0x20) == 0 ? 2 : BYTES_A_CHAR;
            }
        }
        return at == end && places <= 1;
    }

    /** Puts a name together again. O(length). */
    static String join(byte[] bytes, int start, int end, int tile, int columns) {
        char[] name = new char[end - start + 2 * (MOST_DIGITS + 1)];
        int length = 0;
        int at = start;
        while (at < end) {
            byte b = bytes[at];
            if (b >= 0) {
                name[length++] = (char) b;
                at++;
            } else if (b == LOWER || b == UPPER) {
                name[length++] = b == LOWER ? 'x' : 'X';
                length = putDigits(name, length, tile % columns);
                name[length++] = b == LOWER ? 'y' : 'Y';
                length = putDigits(name, length, tile / columns);
                at++;
            } else if ((b & 0x20) == 0) {
                name[length++] = (char) ((b & 0x1f) << 6 | bytes[at + 1] & 0x3f);
                at += 2;
            } else {
                int low = (bytes[at + 1] & 0x3f) << 6 | bytes[at + 2] & 0x3f;
                name[length++] = (char) ((b & 0x0f) << 12 | low);
                at += BYTES_A_CHAR;
            }
        }
        return new String(name, 0, length);
    }

    private static int putDigits(char[] text, int at, int number) {
        int end = at;
        int rest = number;
        do {
            text[end++] = (char) ('0' + rest % 10);
            rest /= 10;
        } while (rest > 0);
        for (int i = at, j = end - 1; i < j; i++, j--) {
            char c = text[i];
            text[i] = text[j];
            text[j] = c;
        }
        return end;
    }

    @Override
    public String toString() {
        return join(Arrays.copyOf(bytes, length), 0, length, tile, columns);
    }
}
