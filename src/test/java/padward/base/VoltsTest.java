package padward.base;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Voltages are written alike everywhere. */
class VoltsTest {
    @Test
    void oneDecimalAndMoreOnlyWhereTheyCount() {
        assertThat(List.of(Volts.text(3300), Volts.text(5000), Volts.text(1350), Volts.text(2)))
                .containsExactly("3.3 V", "5.0 V", "1.35 V", "0.002 V");
        assertThat(List.of(Volts.half(3300), Volts.half(1000), Volts.half(1)))
                .containsExactly("1.65 V", "0.5 V", "0.0005 V");
    }

    /** No other class writes volts. */
    @Test
    void thereIsOneWriter() throws IOException {
        try (Stream<Path> files = Files.walk(Path.of("src/main/java"))) {
            assertThat(files.filter(f -> f.toString().endsWith(".java")))
                    .filteredOn(f -> !f.endsWith("Volts.java"))
                    .allSatisfy(
                            f ->
                                    assertThat(Files.readString(f))
                                            .doesNotContainPattern("[df] V\\b|\" m?V[\", ]"));
        }
    }
}
