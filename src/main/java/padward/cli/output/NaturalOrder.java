package padward.cli.output;

import java.math.BigInteger;
import java.util.Comparator;
import java.util.regex.Pattern;

/** The order of names in which A2 comes before A10: numbers in them count as numbers. */
public final class NaturalOrder implements Comparator<String> {
    private static final Pattern BETWEEN =
            Pattern.compile("(?<=[0-9])(?=[^0-9])|(?<=[^0-9])(?=[0-9])");

    @Override
    public int compare(String one, String other) {
        String[] pieces = BETWEEN.split(one);
        String[] others = BETWEEN.split(other);
        for (int i = 0; i < Math.min(pieces.length, others.length); i++) {
            int order =
                    isNumber(pieces[i]) && isNumber(others[i])
                            ? new BigInteger(pieces[i]).compareTo(new BigInteger(others[i]))
                            : pieces[i].compareToIgnoreCase(others[i]);
            if (order != 0) {
                return order;
            }
        }
        int order = Integer.compare(pieces.length, others.length);
        return order == 0 ? one.compareTo(other) : order;
    }

    private static boolean isNumber(String piece) {
        return !piece.isEmpty() && piece.charAt(0) >= '0' && piece.charAt(0) <= '9';
    }
}
