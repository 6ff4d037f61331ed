package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Decimals;

/** One rule for numbers that people type: a comma is a point, unless it may mark thousands. */
class TypedNumbersTest {
    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
    }

    private CommandRun bus(String load) {
        return CommandRun.of(
                "bus",
                "-d",
                design,
                "-n",
                "alarm/beep",
                "-p",
                "header J1",
                "--json",
                "--probe-pf",
                load);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {"0,25; 0.25", "2,5; 2.5", "1,5e1; 15", "1000; 1000", "0,001; 0.001", " 3 ; 3"})
    void aCommaCountsAsAPoint(String text, String number) {
        assertThat(Decimals.typed(text).orElseThrow()).isEqualByComparingTo(number);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {"1,000", "10,250", "-1,000", "1,000,000"})
    void aCommaThatMayMarkThousandsIsAFault(String text) {
        assertThat(Decimals.typed(text)).isEmpty();
        assertThat(Decimals.mayMeanThousands(text)).isTrue();
    }

    @Test
    void optionsAndFieldsFollowIt() {
        assertThat(bus("0,25").json()).isEqualTo(bus("0.25").json());
        CommandRun two = bus("1,000");
        assertThat(two.code()).isEqualTo(2);
        assertThat(two.err())
                .contains(
                        "--probe-pf: expected a number with a point, because the comma could mean"
                                + " thousands, found “1,000”");
        assertThat(bus("far").err()).contains("--probe-pf: expected a number, found “far”");
    }
}
