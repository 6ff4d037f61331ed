package padward.ui.design;

import it.unimi.dsi.fastutil.ints.IntArrays;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.PriorityQueue;
import java.util.stream.IntStream;

/**
 * Which names may contain a text: for all one, two, three and five characters that stand together,
 * in classes of equal hash, the blocks of 64 names in which they occur. A name with the text is in
 * a block that has all of the text's; the names of such a block have to be looked at. And all names
 * sorted, for those that begin with a text. Cases are not distinguished. Some 40 bytes a name;
 * immutable.
 *
 * <p>Sets of such pieces of text for finding candidates: Zobel, Moffat and Sacks-Davis, "Searching
 * large lexicons for partially specified terms using compressed inverted files", VLDB 1993,
 * 290-301.
 */
final class NameGrams {
    private static final int BLOCK = 64;

    /**
     * By the number of characters the number of classes, a power of two. Four say little that three
     * do not.
     */
    private static final int[] CLASSES = {0, 256, 2048, 8192, 0, 8192};

    /** By the number of characters the first of their classes. */
    private static final int[] FIRST_CLASS = {0, 0, 256, 2304, 0, 10496};

    private static final int ALL_CLASSES = 18688;
    private static final int LONGEST = CLASSES.length - 1;

    private final List<String> names;
    private final BitSet[] blocksByClass = new BitSet[ALL_CLASSES];
    private final int[] sorted;

    /** Indexes names. O(sum of their lengths + n log n). */
    NameGrams(List<String> names) {
        this.names = names;
        int blocks = (names.size() + BLOCK - 1) / BLOCK;
        Arrays.setAll(blocksByClass, i -> new BitSet(blocks));
        String[] lower = new String[names.size()];
        for (int i = 0; i < lower.length; i++) {
            lower[i] = lower(i);
            addClasses(lower[i], i / BLOCK);
        }
        sorted = IntStream.range(0, lower.length).toArray();
        IntArrays.mergeSort(sorted, (one, other) -> lower[one].compareTo(lower[other]));
    }

    private String lower(int name) {
        return names.get(name).toLowerCase(Locale.ROOT);
    }

    private void addClasses(String text, int block) {
        for (int from = 0; from < text.length(); from++) {
            int hash = 0;
            for (int i = from; i < Math.min(text.length(), from + LONGEST); i++) {
                hash = next(hash, text.charAt(i));
                if (CLASSES[i - from + 1] > 0) {
                    blocksByClass[classOf(hash, i - from + 1)].set(block);
                }
            }
        }
    }

    private static int classOf(int hash, int length) {
        return FIRST_CLASS[length] + (hash & CLASSES[length] - 1);
    }

    private static int next(int hash, char c) {
        int mixed = (hash + c + 1) * 0x9E3779B1;
        return mixed ^ mixed >>> 15;
    }

    /**
     * The numbers of the names that may match a pattern, in their order: all that do, and some that
     * do not.
     *
     * @param pattern in lower case; {@code *} and {@code ?} stand for anything
     */
    IntStream mayMatch(String pattern) {
        BitSet blocks = new BitSet();
        blocks.set(0, (names.size() + BLOCK - 1) / BLOCK);
        for (int one : classes(pattern)) {
            blocks.and(blocksByClass[one]);
        }
        return blocks.stream()
                .flatMap(b -> IntStream.range(b * BLOCK, Math.min(names.size(), (b + 1) * BLOCK)));
    }

    private static IntSet classes(String pattern) {
        IntSet result = new IntOpenHashSet();
        for (int from = 0; from < pattern.length(); from++) {
            int hash = 0;
            for (int i = from; i < Math.min(pattern.length(), from + LONGEST); i++) {
                char c = pattern.charAt(i);
                if (c == '*' || c == '?') {
                    break;
                }
                hash = next(hash, c);
                if (CLASSES[i - from + 1] > 0) {
                    result.add(classOf(hash, i - from + 1));
                }
            }
        }
        return result;
    }

    /**
     * The numbers of the first names that begin with a text, in their order. O(log n + how many
     * do).
     *
     * @param text in lower case
     */
    IntStream firstBeginningWith(String text, int most) {
        PriorityQueue<Integer> first = new PriorityQueue<>((one, other) -> other - one);
        int end = firstFrom(text, true);
        for (int at = firstFrom(text, false); at < end; at++) {
            if (first.size() < most || sorted[at] < first.peek()) {
                first.add(sorted[at]);
                if (first.size() > most) {
                    first.poll();
                }
            }
        }
        return first.stream().mapToInt(Integer::intValue).sorted();
    }

    /**
     * The first place in sorted order from which no name is before a text.
     *
     * @param behind also none that begins with it
     */
    private int firstFrom(String text, boolean behind) {
        int low = 0;
        int high = sorted.length;
        while (low < high) {
            int middle = (low + high) >>> 1;
            String name = lower(sorted[middle]);
            if (name.compareTo(text) < 0 || behind && name.startsWith(text)) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }
}
