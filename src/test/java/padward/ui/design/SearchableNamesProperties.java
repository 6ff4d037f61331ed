package padward.ui.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

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
        SearchableNames plain = new SearchableNames(names.subList(0, SearchableNames.FEW - 1));
        SearchableNames indexed = new SearchableNames(names);
        indexed.index();
        for (int i = 0; i < 300; i++) {
            String typed = typed(random);
            assertThat(indexed.find(typed, 12))
                    .as("“%s”", typed)
                    .isEqualTo(PlainSearch.find(typed, names, 12));
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
        return switch (random.nextInt(4)) {
            case 0 -> part.substring(0, mark) + "*" + part.substring(mark);
            case 1 -> part.isEmpty() ? "?" : part.replace(part.charAt(0), '?');
            default -> part.toUpperCase(Locale.ROOT);
        };
    }

    @Test
    void aRareTextIsSoughtInFewNames() {
        List<String> names = new ArrayList<>();
        for (int i = 0; i < 100_000; i++) {
            names.add("block" + i % 97 + "/reg" + i);
        }
        names.set(77_777, "block/zebra");
        NameGrams grams = new NameGrams(names);
        assertThat(grams.mayMatch("zeb").count()).isLessThan(1000);
        assertThat(grams.mayMatch("z").count()).isLessThan(2000);
        assertThat(grams.mayMatch("*e*zq?").count()).isLessThan(1000);
    }
}
