package padward.base;

import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;

/** Finds the known name that a misspelt one probably means. */
public final class NearestName {
    /** Names compared at most: enough for every list but the wires of a large fabric. */
    private static final int LOOKED_AT = 200_000;

    /** Names longer than this are not compared: the comparison is quadratic. */
    private static final int LONGEST = 100;

    private NearestName() {}

    /**
     * The nearest name by edit distance, at most a third of the name's length away; case does not
     * count.
     */
    public static Optional<String> find(String name, Stream<String> known) {
        if (name.length() > LONGEST) {
            return Optional.empty();
        }
        String lower = name.toLowerCase(Locale.ROOT);
        int[] best = {Math.max(1, name.length() / 3) + 1};
        String[] found = {null};
        known.limit(LOOKED_AT)
                .filter(k -> Math.abs(k.length() - name.length()) < best[0])
                .forEach(
                        k -> {
                            int distance = distance(lower, k.toLowerCase(Locale.ROOT), best[0]);
                            if (distance < best[0]) {
                                best[0] = distance;
                                found[0] = k;
                            }
                        });
        return Optional.ofNullable(found[0]);
    }

    /**
     * The distance of Damerau (1964) between texts, of which no part is changed twice: letters that
     * changed places count as one change. Stops early at the limit.
     */
    private static int distance(String one, String other, int limit) {
        int[] twoAbove = new int[other.length() + 1];
        int[] above = new int[other.length() + 1];
        int[] row = new int[other.length() + 1];
        for (int j = 0; j <= other.length(); j++) {
            above[j] = j;
        }
        int leastAbove = 0;
        for (int i = 1; i <= one.length(); i++) {
            row[0] = i;
            int least = i;
            for (int j = 1; j <= other.length(); j++) {
                int change = one.charAt(i - 1) == other.charAt(j - 1) ? 0 : 1;
                row[j] = Math.min(above[j - 1] + change, Math.min(above[j], row[j - 1]) + 1);
                boolean swapped =
                        i > 1
                                && j > 1
                                && one.charAt(i - 1) == other.charAt(j - 2)
                                && one.charAt(i - 2) == other.charAt(j - 1);
                if (swapped) {
                    row[j] = Math.min(row[j], twoAbove[j - 2] + 1);
                }
                least = Math.min(least, row[j]);
            }
            // Letters that change places go on from the row before.
            if (least >= limit && leastAbove >= limit) {
                return limit;
            }
            leastAbove = least;
            int[] oldest = twoAbove;
            twoAbove = above;
            above = row;
            row = oldest;
        }
        return above[other.length()];
    }
}
