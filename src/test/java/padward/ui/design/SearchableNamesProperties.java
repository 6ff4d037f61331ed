package padward.ui.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.ui.model.Suggestions;

/** With an index the same names are found as by looking at all, and few are looked at. */
class SearchableNamesProperties {
    private static final String[] PARTS = {"Uart", "rx", "cnt", "alarm", "q", "[", "]", "1", "27"};

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void theSameAsByLookingAtAll(long seed) {
        Random random = new Random(seed);
        List<String> names = new ArrayList<>();
        for (int i = 0; i < SearchableNames.FEW + random.nextInt(500); i++) {
            names.add(drawn(random, 1 + random.nextInt(5)));
        }
        if (random.nextBoolean()) {
            names.sort(null);
        }
        SearchableNames plain = new SearchableNames(names.subList(0, SearchableNames.FEW - 1));
        SearchableNames indexed = new SearchableNames(names);
        indexed.index();
        for (int i = 0; i < 300; i++) {
            String typed = typed(random);
            int most = random.nextBoolean() ? 12 : Suggestions.COUNTED;
            assertThat(indexed.find(typed, most))
                    .as("“%s”", typed)
                    .isEqualTo(PlainSearch.find(typed, names, most));
            assertThat(plain.find(typed, 12))
                    .as("“%s”", typed)
                    .isEqualTo(
                            PlainSearch.find(typed, names.subList(0, SearchableNames.FEW - 1), 12));
        }
    }

    private static String drawn(Random random, int parts) {
        StringBuilder name = new StringBuilder();
        for (int i = 0; i < parts; i++) {
            name.append(i == 0 ? "" : "/").append(PARTS[random.nextInt(PARTS.length)]);
        }
        return name.toString();
    }

    private static String typed(Random random) {
        String whole = drawn(random, random.nextInt(3));
        int from = random.nextInt(whole.length() + 1);
        String part = whole.substring(from);
        int mark = random.nextInt(part.length() + 1);
        return switch (random.nextInt(6)) {
            case 0 -> part.substring(0, mark) + "*" + part.substring(mark);
            case 1 -> part.isEmpty() ? "?" : part.replace(part.charAt(0), '?');
            case 2 -> whole.toUpperCase(Locale.ROOT).replace("", "*");
            case 3 -> drawn(random, 4 + random.nextInt(12)).replace('/', '*');
            default -> part.toUpperCase(Locale.ROOT);
        };
    }

    @ParameterizedTest
    @ValueSource(longs = {11, 12, 13})
    void busesAndCharactersOfTwoAreFoundToo(long seed) {
        Random random = new Random(seed);
        String[] words = {"Data", "q", "ß", "𝄞", "İ", "addr_2", "x", "3"};
        List<String> names = new ArrayList<>();
        while (names.size() < SearchableNames.FEW) {
            String path = words[random.nextInt(seed % 2 == 0 ? words.length : 2)];
            String word = path + "/" + words[random.nextInt(words.length)] + random.nextInt(9);
            for (int bit = random.nextInt(70); bit >= 0; bit--) {
                names.add(word + "[" + bit + "]");
            }
        }
        SearchableNames indexed = new SearchableNames(names);
        indexed.index();
        for (int i = 0; i < 300; i++) {
            String name = names.get(random.nextInt(names.size()));
            int[] characters = name.codePoints().toArray();
            int from = random.nextInt(characters.length);
            int length = 1 + random.nextInt(characters.length - from);
            String part = new String(characters, from, length);
            String first = Character.toString(characters[from]);
            String typed =
                    switch (random.nextInt(4)) {
                        case 0 -> part.replace(first, "?");
                        case 1 -> part.replace(first, "*" + first + "*");
                        case 2 -> part.toUpperCase(Locale.ROOT).replace(first, "*");
                        default -> part;
                    };
            assertThat(indexed.find(typed, Suggestions.COUNTED))
                    .as("“%s”", typed)
                    .isEqualTo(PlainSearch.find(typed, names, Suggestions.COUNTED));
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {21, 22, 23})
    void numbersWithOneBeginningAreFoundToo(long seed) {
        Random random = new Random(seed);
        List<String> names = new ArrayList<>();
        for (int i = 1; i <= 3 * SearchableNames.FEW; i++) {
            names.add("n" + i);
            names.add(String.format(Locale.ROOT, "_%06d_", i));
        }
        names.sort(null);
        if (seed % 2 == 0) {
            Collections.shuffle(names.subList(0, names.size() / 2), random);
        }
        assertTheSame(names, 300, random);
    }

    @ParameterizedTest
    @ValueSource(longs = {41, 42, 43})
    void numbersWithGapsZerosAndWhatIsBehindThemAreFoundToo(long seed) {
        Random random = new Random(seed);
        String[] tails = seed % 2 == 0 ? new String[] {""} : new String[] {"", "_", "]", "_]"};
        List<String> names = new ArrayList<>();
        for (int i = 0; i < 2 * SearchableNames.FEW; i++) {
            String number = "" + random.nextInt((int) Math.pow(10, 1 + random.nextInt(6)));
            String zeros = "0".repeat(random.nextInt(8) == 0 ? random.nextInt(4) : 0);
            names.add("q[" + zeros + number + tails[random.nextInt(tails.length)]);
        }
        names.sort(null);
        assertTheSame(names, 300, random);
    }

    @ParameterizedTest
    @ValueSource(longs = {31, 32, 33})
    void longTextsAreFoundToo(long seed) {
        Random random = new Random(seed);
        List<String> names = new ArrayList<>();
        String beginning = "Top/" + "rx_Lane/".repeat(8);
        for (int i = 0; i < SearchableNames.FEW; i++) {
            String path = random.nextInt(4) == 0 ? drawn(random, 9) : beginning;
            names.add(path + drawn(random, 3) + random.nextInt(20) + "/" + random.nextInt(200));
        }
        names.sort(null);
        assertTheSame(names, 300, random);
        assertTheSame(
                names, List.of(beginning, "?" + beginning.substring(1) + "*", beginning + "*1"));
    }

    private static void assertTheSame(List<String> names, List<String> texts) {
        SearchableNames indexed = new SearchableNames(names);
        indexed.index();
        for (String typed : texts) {
            assertThat(indexed.find(typed, 12))
                    .as("“%s”", typed)
                    .isEqualTo(PlainSearch.find(typed, names, 12));
        }
    }

    /** What is typed are pieces of names, some with stars, some misspelt. */
    private static void assertTheSame(List<String> names, int times, Random random) {
        SearchableNames indexed = new SearchableNames(names);
        indexed.index();
        for (int i = 0; i < times; i++) {
            String name = names.get(random.nextInt(names.size()));
            int from = random.nextInt(Math.min(3, name.length()));
            int behind = name.length() - random.nextInt(Math.min(3, name.length() - from));
            StringBuilder piece = new StringBuilder(name.substring(from, behind));
            int at = random.nextInt(piece.length());
            switch (random.nextInt(5)) {
                case 0 -> piece.setCharAt(at, '*');
                case 1 -> piece.setCharAt(at, '?');
                case 2 -> piece.insert(at, '*').insert(piece.length() / 2, '*');
                case 3 -> piece.setCharAt(at, '1');
                default -> {}
            }
            String typed = piece.toString();
            int most = random.nextBoolean() ? 12 : Suggestions.COUNTED;
            assertThat(indexed.find(typed, most))
                    .as("“%s”", typed)
                    .isEqualTo(PlainSearch.find(typed, names, most));
        }
    }

    @Test
    void aNumberIsSoughtInFewNames() {
        NameGrams grams =
                new NameGrams(
                        IntStream.rangeClosed(1, 100_000).mapToObj(i -> "n" + i).sorted().toList());
        assertThat(grams.lookedAt("n77777")).isLessThan(2000);
    }

    @Test
    void aRareTextIsSoughtInFewNames() {
        List<String> names = new ArrayList<>();
        for (int i = 0; i < 100_000; i++) {
            names.add("block" + i % 97 + "/reg" + i);
        }
        names.set(77_777, "block/zebra");
        NameGrams grams = new NameGrams(names);
        assertThat(grams.lookedAt("zeb")).isLessThan(1000);
        assertThat(grams.lookedAt("z")).isLessThan(2000);
        assertThat(grams.lookedAt("*e*zq?")).isLessThan(1000);
    }
}
