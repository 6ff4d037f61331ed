package padward.handover;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Names in delay files, IEEE 1497-2001: whoever takes the escapes away has the name again. */
class SdfNamesTest {
    @ParameterizedTest
    @ValueSource(strings = {"a/b_1", "a[0]", "a b\\", "\\", "\"", "é", "😀", "😁x", "a.b(c)"})
    void anEscapedNameIsReadBack(String name) {
        String escaped = SdfText.identifier(name);
        StringBuilder read = new StringBuilder();
        for (int i = 0; i < escaped.length(); i++) {
            if (escaped.charAt(i) == '\\') {
                i++;
            }
            read.append(escaped.charAt(i));
        }
        assertThat(read).hasToString(name);
        for (int i = 1; i < escaped.length(); i++) {
            // A pair that is torn apart would be written as two question marks.
            boolean torn =
                    escaped.charAt(i - 1) == '\\' && Character.isLowSurrogate(escaped.charAt(i));
            assertThat(torn).isFalse();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"a\\", "a\"b", "\\\""})
    void aQuotedTextEndsWhereItEnds(String text) {
        assertThat(SdfText.quoted(text)).doesNotContain("\\").doesNotContain("\"");
    }
}
