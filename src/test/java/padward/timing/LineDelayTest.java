package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Traces and cables against the handbook formulas' values, recomputed: MECL System Design Handbook
 * (constants quoted after third parties), ps an inch; velocity factors of coaxial cable.
 */
class LineDelayTest {
    private static final double MM_PER_INCH = 25.4;

    @ParameterizedTest
    @CsvSource({"4.0, 136.3, 170.0", "4.3, 140.0, 176.3", "4.5, 142.4, 180.3", "4.7, 144.8, 184.3"})
    void tracesPerInch(double constant, double microstrip, double stripline) {
        assertThat(LineDelay.microstripPsPerMm(constant) * MM_PER_INCH)
                .isCloseTo(microstrip, within(0.06));
        assertThat(LineDelay.striplinePsPerMm(constant) * MM_PER_INCH)
                .isCloseTo(stripline, within(0.06));
    }

    @ParameterizedTest
    @CsvSource({"0.66, 5054", "0.78, 4276"})
    void cablesPerMetre(double factor, double ps) {
        assertThat(LineDelay.cablePsPerMetre(factor)).isCloseTo(ps, within(0.8));
    }
}
