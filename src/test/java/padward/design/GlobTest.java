package padward.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.util.Random;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Assertions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class GlobTest {
    private static String drawn(Random random, String letters, int most) {
        StringBuilder text = new StringBuilder();
        for (int i = random.nextInt(most); i > 0; i--) {
            int at = random.nextInt(letters.codePointCount(0, letters.length()));
            text.appendCodePoint(letters.codePoints().skip(at).findFirst().orElseThrow());
        }
        return text.toString();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2})
    void matchesWhatARegularExpressionMatches(long seed) {
        Random random = new Random(seed);
        int matched = 0;
        for (int i = 0; i < 20_000; i++) {
            String pattern = drawn(random, "ab**?[😀", 7);
            String name = drawn(random, "aab[😀", 8);
            String regex = Pattern.quote(pattern).replace("*", "\\E.*\\Q").replace("?", "\\E.\\Q");
            boolean expected = Pattern.compile(regex, Pattern.DOTALL).matcher(name).matches();
            assertThat(Glob.of(pattern).matches(name))
                    .as("%s against %s, seed %d", pattern, name, seed)
                    .isEqualTo(expected);
            matched += expected ? 1 : 0;
        }
        assertThat(matched).isGreaterThan(1000);
    }

    @Test
    void manyStarsEnd() {
        String name = "a".repeat(1000);
        for (String pattern : new String[] {"*a".repeat(40) + "*b", "*".repeat(20_000) + "b"}) {
            Assertions.assertTimeoutPreemptively(
                    Duration.ofSeconds(20),
                    () -> assertThat(Glob.of(pattern).matches(name)).isFalse());
        }
    }
}
