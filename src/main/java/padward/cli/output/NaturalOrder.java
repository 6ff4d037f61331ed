package padward.cli.output;

import java.util.Comparator;

/**
 * The order of names in which A2 comes before A10: numbers in them count as numbers, and capital
 * letters like small ones. O(length).
 */
public final class NaturalOrder implements Comparator<String> {
    @Override
    public int compare(String one, String other) {
        int i = 0;
        int j = 0;
        while (i < one.length() && j < other.length()) {
            int order;
            if (isDigit(one.charAt(i)) && isDigit(other.charAt(j))) {
                int end = endOfNumber(one, i);
                int otherEnd = endOfNumber(other, j);
                order = compareNumbers(one, i, end, other, j, otherEnd);
                i = end;
                j = otherEnd;
            } else {
                order = Character.compare(folded(one.charAt(i++)), folded(other.charAt(j++)));
            }
            if (order != 0) {
                return order;
            }
        }
        int order = Integer.compare(one.length() - i, other.length() - j);
        return order == 0 ? one.compareTo(other) : order;
    }

    private static int compareNumbers(
            String one, int from, int to, String other, int otherFrom, int otherTo) {
        int i = withoutZeros(one, from, to);
        int j = withoutZeros(other, otherFrom, otherTo);
        int order = Integer.compare(to - i, otherTo - j);
        while (order == 0 && i < to) {
            order = Character.compare(one.charAt(i++), other.charAt(j++));
        }
        return order;
    }

    private static int withoutZeros(String text, int from, int to) {
        int i = from;
        while (i < to && text.charAt(i) == '0') {
            i++;
        }
        return i;
    }

    private static int endOfNumber(String text, int from) {
        int i = from;
        while (i < text.length() && isDigit(text.charAt(i))) {
            i++;
        }
        return i;
    }

    private static boolean isDigit(char c) {
        return c >= '0' && c <= '9';
    }

    private static char folded(char c) {
        return Character.toLowerCase(Character.toUpperCase(c));
    }
}
