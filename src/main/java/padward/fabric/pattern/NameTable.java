package padward.fabric.pattern;

import java.util.Arrays;
import java.util.Comparator;
import java.util.Map;
import padward.fabric.Fabric;

/**
 * Numbers by names that are looked up where they stand in longer texts: nothing is cut out of
 * these. Names are in buckets by a hash and sorted in each, so that names made to have the same one
 * cost no more than a binary search. Immutable.
 */
final class NameTable {
    /** Where each bucket begins; the next entry ends it. */
    private final int[] start;

    private final String[] names;
    private final int[] numbers;

    NameTable(Map<String, Integer> numberByName) {
        names = numberByName.keySet().toArray(new String[0]);
        start = new int[Integer.highestOneBit(2 * names.length + 1) + 1];
        Comparator<String> byBucket = Comparator.comparingInt(n -> bucket(n, 0, n.length()));
        Arrays.sort(names, byBucket.thenComparing(Comparator.naturalOrder()));
        numbers = new int[names.length];
        for (int i = 0; i < names.length; i++) {
            numbers[i] = numberByName.get(names[i]);
            start[bucket(names[i], 0, names[i].length()) + 1] = i + 1;
        }
        for (int bucket = 1; bucket < start.length; bucket++) {
            start[bucket] = Math.max(start[bucket], start[bucket - 1]);
        }
    }

    /** The number of what stands in a text, or {@link Fabric#NOTHING}. */
    int find(String text, int from, int to) {
        int bucket = bucket(text, from, to);
        int low = start[bucket];
        int high = start[bucket + 1] - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int order = compare(names[middle], text, from, to);
            if (order == 0) {
                return numbers[middle];
            }
            if (order < 0) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        return Fabric.NOTHING;
    }

    private int bucket(String text, int from, int to) {
        int hash = 0;
        for (int i = from; i < to; i++) {
            hash = 31 * hash + text.charAt(i);
        }
        return (hash ^ hash >>> 16) & start.length - 2;
    }

    /** As {@link String#compareTo}. */
    private static int compare(String name, String text, int from, int to) {
        int common = Math.min(name.length(), to - from);
        for (int i = 0; i < common; i++) {
            int difference = name.charAt(i) - text.charAt(from + i);
            if (difference != 0) {
                return difference;
            }
        }
        return name.length() - (to - from);
    }
}
