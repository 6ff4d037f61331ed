package padward.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Which name a misspelt one means. */
class NearestNameTest {
    @ParameterizedTest
    @CsvSource({
        "aks, ask",
        "sak, ask",
        "pda, pad",
        "survye, survey",
        "srvey, survey",
        "deskeww, deskew",
        "ab, none",
        "xyz, none"
    })
    void lettersThatChangedPlacesAreOneChange(String text, String meant) {
        Stream<String> known = Stream.of("ask", "pad", "survey", "deskew");
        assertThat(NearestName.find(text, known).orElse("none")).isEqualTo(meant);
    }
}
