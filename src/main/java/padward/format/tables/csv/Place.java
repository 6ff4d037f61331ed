package padward.format.tables.csv;

/** A tile's column and row in one number, and the names of tiles. */
public final class Place {
    /** Means "no place". */
    public static final long NONE = -1;

    private static final int MOST_DIGITS = 9;

    private Place() {}

    static long of(int column, int row) {
        return (long) column << Integer.SIZE | row;
    }

    public static int column(long place) {
        return (int) (place >>> Integer.SIZE);
    }

    public static int row(long place) {
        return (int) place;
    }

    /** The place in a tile's name, {@code x3y4} in any case, or {@link #NONE}. */
    static long parse(String name) {
        return name.isEmpty() ? NONE : at(name, 0, true);
    }

    /** The first place in a name, {@code x3y4} in {@code x3y4/run1_e[5]}. O(length). */
    public static long first(String name) {
        for (int i = 0; i < name.length(); i++) {
            boolean begins = i == 0 || !Character.isLetterOrDigit(name.charAt(i - 1));
            if (begins || name.charAt(i) == 'X') {
                long place = at(name, i, false);
                if (place != NONE) {
                    return place;
                }
            }
        }
        return NONE;
    }

    private static long at(String name, int start, boolean whole) {
        int first = digits(name, start, 'x');
        int second = first < 0 ? -1 : digits(name, first, 'y');
        if (second < 0 || (whole && second < name.length())) {
            return NONE;
        }
        return of(
                Integer.parseInt(name, start + 1, first, 10),
                Integer.parseInt(name, first + 1, second, 10));
    }

    /** The end of a letter followed by digits, or -1. */
    private static int digits(String name, int start, char letter) {
        if (start >= name.length() || Character.toLowerCase(name.charAt(start)) != letter) {
            return -1;
        }
        int end = start + 1;
        while (end < name.length() && name.charAt(end) >= '0' && name.charAt(end) <= '9') {
            end++;
        }
        int count = end - start - 1;
        return count == 0 || count > MOST_DIGITS ? -1 : end;
    }
}
