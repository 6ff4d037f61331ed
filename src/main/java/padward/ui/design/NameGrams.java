package padward.ui.design;

import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.function.IntPredicate;

/**
 * Finds the names that contain a text or begin with it: for all one, two, three and five characters
 * that stand together, in classes of equal hash, it knows the blocks of some 128 names in which
 * they occur. A name with the text is in a block that has all of the text's; only such blocks are
 * searched, as {@link NameGroups} describes. Cases are not distinguished. Some 30 bytes a name at a
 * million, most of them for the blocks; immutable.
 *
 * <p>Sets of such pieces of text for finding candidates: Zobel, Moffat and Sacks-Davis, "Searching
 * large lexicons for partially specified terms using compressed inverted files", VLDB 1993,
 * 290-301.
 */
final class NameGrams {
    /**
     * By the number of characters the number of classes, a power of two. Four say little that three
     * do not.
     */
    private static final int[] CLASSES = {0, 256, 2048, 8192, 0, 8192};

    /** By the number of characters the first of their classes. */
    private static final int[] FIRST_CLASS = {0, 0, 256, 2304, 0, 10496};

    private static final int ALL_CLASSES = 18688;
    private static final int LONGEST = CLASSES.length - 1;

    /** Stands before each name, so that beginnings are pieces of text too. */
    private static final char BEGINNING = '\0';

    private final NameGroups groups;
    private final BitSet[] blocksByClass = new BitSet[ALL_CLASSES];

    /** Whether some name has characters that Java counts as two. */
    private final boolean hasPairs;

    /** Indexes names. O(sum of their lengths). */
    NameGrams(List<String> names) {
        List<String> lower = names.stream().map(n -> n.toLowerCase(Locale.ROOT)).toList();
        groups = new NameGroups(lower);
        hasPairs = lower.stream().anyMatch(n -> n.chars().anyMatch(c -> isOfPair((char) c)));
        Arrays.setAll(blocksByClass, i -> new BitSet(groups.blocks()));
        for (int block = 0; block < groups.blocks(); block++) {
            String before = "";
            for (int i = groups.firstName(block); i < groups.firstName(block + 1); i++) {
                String name = BEGINNING + lower.get(i);
                addClasses(name, NameGroups.common(before, name) - LONGEST + 1, block);
                before = name;
            }
        }
    }

    private static boolean isOfPair(char c) {
        return Character.isSurrogate(c);
    }

    /** Adds the pieces that begin at a place or behind it. */
    private void addClasses(String text, int first, int block) {
        for (int from = Math.max(0, first); from < text.length(); from++) {
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
     * Whether a text can be searched here: it has no {@code ?} that would have to stand for a
     * character that Java counts as two.
     */
    boolean canFind(String text) {
        return !(hasPairs && text.contains("?"));
    }

    /**
     * The numbers of the first names that contain a text or begin with it, in their order. Of a
     * text of more than 62 characters besides stars only the first 62 are read in names; such names
     * are tested by the whole text.
     *
     * @param text in lower case; {@code *} and {@code ?} stand for anything; {@link #canFind}
     * @param whole whether the name of a number contains the whole text or begins with it
     * @param wanted which of the names that do so to find
     * @param enough it may stop after so many, and may find more
     */
    IntList find(
            String text, boolean atBeginning, IntPredicate whole, IntPredicate wanted, int enough) {
        TextStates states = TextStates.of(text, atBeginning);
        NameGroups.Search search =
                groups.new Search(states, states.isWhole() ? wanted : wanted.and(whole));
        BitSet blocks = mayMatch(atBeginning ? BEGINNING + text : text);
        for (int b = blocks.nextSetBit(0); b >= 0; b = blocks.nextSetBit(b + 1)) {
            search.read(b, enough);
            if (search.found().size() >= enough) {
                break;
            }
        }
        return search.found();
    }

    /** How many names are in blocks that may have a text. */
    int lookedAt(String text) {
        return mayMatch(text).stream()
                .map(b -> groups.firstName(b + 1) - groups.firstName(b))
                .sum();
    }

    private BitSet mayMatch(String text) {
        BitSet blocks = new BitSet();
        blocks.set(0, groups.blocks());
        for (int one : classes(text)) {
            blocks.and(blocksByClass[one]);
        }
        return blocks;
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
}
