package padward.format.source;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.StringReader;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Texts are checked in stretches as they are character by character. */
class TextProperties {
    private static final String ODD = "a\"\\ \n\u007f\u009f\ud800\udc00\ud801é,:[]{}";

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void printableByAnyOtherMeans(long seed) {
        Random random = new Random(seed);
        for (int i = 0; i < 2000; i++) {
            String text = drawn(random, random.nextInt(6));
            boolean expected =
                    text.codePoints()
                            .noneMatch(
                                    c ->
                                            Character.isISOControl(c)
                                                    || Character.getType(c) == Character.SURROGATE);
            assertThat(Text.isPrintable(text)).as("%s", text).isEqualTo(expected);
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void tooLongInStretchesAsByCharacters(long seed) throws IOException {
        Random random = new Random(seed);
        int length = 6 * FileLimits.NOTE - 20 + random.nextInt(60);
        for (int i = 0; i < 30; i++) {
            StringBuilder text = new StringBuilder(drawn(random, random.nextInt(8)));
            if (random.nextInt(4) > 0) {
                text.append('"');
            }
            text.append("x".repeat(length)).append(drawn(random, random.nextInt(40)));
            assertThat(refused(text.toString(), 1 + random.nextInt(5000)))
                    .isEqualTo(refused(text.toString(), 0));
        }
    }

    private static String drawn(Random random, int length) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < length; i++) {
            text.append(ODD.charAt(random.nextInt(ODD.length())));
        }
        return text.toString();
    }

    /** Whether a text is refused when so many characters are read at a time; 0 for one by one. */
    private static boolean refused(String text, int atATime) throws IOException {
        try (BoundedText bounded = new BoundedText(new StringReader(text))) {
            char[] chars = new char[Math.max(1, atATime)];
            while ((atATime == 0 ? bounded.read() : bounded.read(chars, 0, chars.length)) >= 0) {
                continue;
            }
            return false;
        } catch (BoundedText.TooLong e) {
            return true;
        }
    }
}
