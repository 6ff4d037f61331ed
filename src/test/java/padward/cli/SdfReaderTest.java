package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The reader that checks our SDF takes the standard's example and refuses what is none. */
class SdfReaderTest {
    private static final String HEAD = "(DELAYFILE (SDFVERSION \"4.0\") (DIVIDER /) ";

    /** After the standard's example of interconnect delays (adapted, from memory). */
    @Test
    void theStandardsExampleIsRead() {
        SdfReader.File file =
                SdfReader.read(
                        "(DELAYFILE (SDFVERSION \"4.0\") (DESIGN \"system\") (DIVIDER /)"
                                + " (TIMESCALE 1ns) (CELL (CELLTYPE \"system\") (INSTANCE)"
                                + " (DELAY (ABSOLUTE (INTERCONNECT P1/z B1/C1/i (.145::.145)"
                                        .replace(".145", "0.145")
                                + " (0.125::0.125))))))");
        assertThat(file.interconnects())
                .containsExactly(
                        new SdfReader.Interconnect(
                                "P1/z",
                                "B1/C1/i",
                                List.of(
                                        List.of("0.145", "", "0.145"),
                                        List.of("0.125", "", "0.125"))));
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "(DELAYFILE (DIVIDER /) (SDFVERSION \"4.0\"))",
                HEAD + "(TIMESCALE 2ps) )",
                HEAD
                        + "(CELL (CELLTYPE \"a\") (INSTANCE) (DELAY (ABSOLUTE (INTERCONNECT a[1] b (1)))))",
                HEAD
                        + "(CELL (CELLTYPE \"a\") (INSTANCE) (DELAY (ABSOLUTE (INTERCONNECT a b (1:2)))))",
                HEAD
                        + "(CELL (CELLTYPE \"a\") (INSTANCE) (DELAY (ABSOLUTE (INTERCONNECT a b (::)))))",
                HEAD + "(CELL (CELLTYPE \"a\") (DELAY (ABSOLUTE )))"
            })
    void invalidTextIsRefused(String text) {
        assertThatThrownBy(() -> SdfReader.read(text + " "))
                .isInstanceOfAny(AssertionError.class, StringIndexOutOfBoundsException.class);
    }
}
