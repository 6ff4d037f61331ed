package padward.ui.design;

import it.unimi.dsi.fastutil.chars.CharArrayList;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.IntPredicate;

/**
 * Names in groups of neighbours that differ in the number at their end alone, as the wires of a bus
 * do. Where more than 256 do, a group has those that differ in the last two digits of the longest
 * numbers alone, so that groups have the same ends. Of the beginning that a group shares, only what
 * differs from the group before is stored; the ends are stored once for all groups with the same. A
 * search reads each beginning once. Of ends it remembers that nothing fits behind a beginning that
 * left it in the same state, for the last of some thousands of such cases, and does not read those
 * again. Groups are put together in blocks of 128 to 383 names, any of which can be left out. Case
 * does not count. Immutable.
 */
final class NameGroups {
    /** A block ends with the first group that has it reach so many names. */
    private static final int BLOCK = 128;

    /** More names than this that differ in their number alone are several groups. */
    private static final int MOST_IN_GROUP = 256;

    /** Those of such a group differ in the last so many digits alone, as those of the next do. */
    private static final int LAST_DIGITS = 2;

    private static final int REMEMBERED = 4096;

    private final int[] firstGroups;
    private final int[] firstNames;
    private final int[] shared;
    private final int[] firstCharacters;
    private final char[] characters;
    private final int[] endsOfGroups;
    private final int[] firstEnds;
    private final int[] firstOfEnd;
    private final char[] charactersOfEnds;
    private final int longest;

    /** Groups names in lower case, in their order. O(sum of their lengths). */
    NameGroups(List<String> lower) {
        Maker maker = new Maker(lower);
        maker.make();
        firstGroups = maker.firstGroups.toIntArray();
        firstNames = maker.firstNames.toIntArray();
        shared = maker.shared.toIntArray();
        firstCharacters = maker.firstCharacters.toIntArray();
        characters = maker.characters.toCharArray();
        endsOfGroups = maker.endsOfGroups.toIntArray();
        firstEnds = maker.firstEnds.toIntArray();
        firstOfEnd = maker.firstOfEnd.toIntArray();
        charactersOfEnds = maker.charactersOfEnds.toCharArray();
        longest = maker.longest;
    }

    /** Finds the groups of a list of names, one after the other. */
    private static final class Maker {
        private final List<String> lower;
        private final IntArrayList firstGroups = new IntArrayList();
        private final IntArrayList firstNames = new IntArrayList();
        private final IntArrayList shared = new IntArrayList();
        private final IntArrayList firstCharacters = new IntArrayList();
        private final CharArrayList characters = new CharArrayList();
        private final IntArrayList endsOfGroups = new IntArrayList();
        private final IntArrayList firstEnds = new IntArrayList();
        private final IntArrayList firstOfEnd = new IntArrayList();
        private final CharArrayList charactersOfEnds = new CharArrayList();
        private final Map<List<String>, Integer> numbersOfEnds = new HashMap<>();
        private String before = "";
        private int longest;

        /** Behind the names that differ in the number at their end alone. */
        private int behindRun;

        /** Where the numbers of these begin, and how many of their digits are in the stem. */
        private int lettersOfRun;

        private int digitsOfStem;

        Maker(List<String> lower) {
            this.lower = lower;
        }

        void make() {
            int name = 0;
            while (name < lower.size()) {
                name = addGroup(name);
            }
            firstGroups.add(firstNames.size());
            firstNames.add(lower.size());
            firstCharacters.add(characters.size());
            firstOfEnd.add(charactersOfEnds.size());
        }

        /** Adds the group that begins with a name; the name behind it. */
        private int addGroup(int first) {
            if (first == behindRun) {
                findRun(first);
            }
            String stem = lower.get(first).substring(0, stemLength(lower.get(first)));
            List<String> own = new ArrayList<>();
            int next = first;
            while (next < behindRun
                    && next - first < MOST_IN_GROUP
                    && stemLength(lower.get(next)) == stem.length()
                    && lower.get(next).startsWith(stem)) {
                own.add(lower.get(next).substring(stem.length()));
                next++;
            }
            boolean begins = first == 0 || first - firstNames.getInt(firstGroups.topInt()) >= BLOCK;
            if (begins) {
                firstGroups.add(firstNames.size());
            }
            int common = common(before, stem);
            firstNames.add(first);
            shared.add(common);
            firstCharacters.add(characters.size());
            stem.chars().skip(begins ? 0 : common).forEach(c -> characters.add((char) c));
            endsOfGroups.add(number(own));
            longest = Math.max(longest, stem.length());
            before = stem;
            return next;
        }

        /** Finds the names from one on that differ in the number at their end alone. */
        private void findRun(int first) {
            String name = lower.get(first);
            lettersOfRun = end(name);
            String letters = name.substring(0, lettersOfRun);
            int most = 0;
            behindRun = first;
            while (behindRun < lower.size() && isOf(letters, lower.get(behindRun))) {
                most = Math.max(most, digits(lower.get(behindRun), lettersOfRun));
                behindRun++;
            }
            boolean isSmall = behindRun - first <= MOST_IN_GROUP;
            digitsOfStem = isSmall ? 0 : Math.max(0, most - LAST_DIGITS);
        }

        private int stemLength(String name) {
            return lettersOfRun + Math.min(digitsOfStem, digits(name, lettersOfRun));
        }

        private int number(List<String> own) {
            int fresh = firstEnds.size();
            Integer known = numbersOfEnds.putIfAbsent(own, fresh);
            if (known != null) {
                return known;
            }
            firstEnds.add(firstOfEnd.size());
            for (String end : own) {
                firstOfEnd.add(charactersOfEnds.size());
                end.chars().forEach(c -> charactersOfEnds.add((char) c));
            }
            return fresh;
        }
    }

    /** Where the number at a name's end begins, with what is no letter behind it. */
    private static int end(String name) {
        int digits = name.length();
        while (digits > 0 && !Character.isLetterOrDigit(name.charAt(digits - 1))) {
            digits--;
        }
        int result = digits;
        while (result > 0 && Character.isDigit(name.charAt(result - 1))) {
            result--;
        }
        return result == digits ? name.length() : result;
    }

    private static int digits(String name, int from) {
        int behind = from;
        while (behind < name.length() && Character.isDigit(name.charAt(behind))) {
            behind++;
        }
        return behind - from;
    }

    private static boolean isOf(String stem, String name) {
        return name.startsWith(stem) && end(name) == stem.length();
    }

    /** How many characters two names have in common at their beginnings. */
    static int common(String one, String other) {
        int result = 0;
        int most = Math.min(one.length(), other.length());
        while (result < most && one.charAt(result) == other.charAt(result)) {
            result++;
        }
        return result;
    }

    /** How many blocks there are. */
    int blocks() {
        return firstGroups.length - 1;
    }

    /** The number of a block's first name; the number of names for the block behind the last. */
    int firstName(int block) {
        return firstNames[firstGroups[block]];
    }

    /** A search for one text, block by block. */
    final class Search {
        private final TextStates text;
        private final IntPredicate wanted;
        private final IntArrayList found = new IntArrayList();
        private final long[] states = new long[longest + 1];
        private final long[] statesOfUnfit = new long[REMEMBERED];
        private final int[] endsOfUnfit = new int[REMEMBERED];
        private int reached;
        private int next;

        /**
         * @param wanted which of the names with the text, by number, to find
         */
        Search(TextStates text, IntPredicate wanted) {
            this.text = text;
            this.wanted = wanted;
            states[0] = text.start();
        }

        /** The numbers of the names found so far, in their order. */
        IntArrayList found() {
            return found;
        }

        /**
         * Reads a block; it may stop when it has found enough.
         *
         * @param block behind those that were read before
         */
        void read(int block, int enough) {
            int first = firstGroups[block];
            int behind = firstGroups[block + 1];
            reached = first == next ? Math.min(reached, shared[first]) : 0;
            for (next = first; next < behind && found.size() < enough; next++) {
                readGroup(next, next == first ? 0 : shared[next]);
            }
        }

        /**
         * @param from how many of its characters are not stored
         */
        private void readGroup(int group, int from) {
            int at = Math.min(reached, shared[group]);
            int toIndex = firstCharacters[group] - from;
            int end = firstCharacters[group + 1] - toIndex;
            long now = states[at];
            while (at < end && !text.isDecided(now)) {
                now = text.next(now, characters[toIndex + at]);
                states[++at] = now;
            }
            reached = at;
            if (text.isFound(now)) {
                for (int i = firstNames[group]; i < firstNames[group + 1]; i++) {
                    add(i);
                }
            } else if (now != 0) {
                readEnds(group, text.least(now));
            }
        }

        private void add(int name) {
            if (wanted.test(name)) {
                found.add(name);
            }
        }

        private void readEnds(int group, long behindStem) {
            int of = endsOfGroups[group];
            int slot = (int) ((behindStem * 31 + of) * 0x9E3779B97F4A7C15L >>> 52);
            if (statesOfUnfit[slot] == behindStem && endsOfUnfit[slot] == of) {
                return;
            }
            boolean fits = false;
            int end = firstEnds[of];
            for (int name = firstNames[group]; name < firstNames[group + 1]; name++, end++) {
                long now = behindStem;
                for (int at = firstOfEnd[end];
                        at < firstOfEnd[end + 1] && !text.isDecided(now);
                        at++) {
                    now = text.next(now, charactersOfEnds[at]);
                }
                if (text.isFound(now)) {
                    add(name);
                    fits = true;
                }
            }
            if (!fits) {
                statesOfUnfit[slot] = behindStem;
                endsOfUnfit[slot] = of;
            }
        }
    }
}
