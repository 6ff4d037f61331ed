package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import padward.fabric.delay.Delay;

/** How far lines are apart, and what levels them: by hand. */
class SkewTest {
    /** Chip 1000 to 1500 and 900 to 1700 ps, of which 400 to 600 ps are the same wires. */
    @Test
    void theSumsAreThoseByHand() {
        Arrival one = new Arrival(new Delay(1000, 1500), 50, 30);
        Arrival other = new Arrival(new Delay(900, 1700), 20, 40);
        PairSkew skew = PairSkew.of(one, other, new Delay(400, 600), 5);
        // 1050 - 920 and 1550 - 1720; half of 5 % of 900 + 1100; the root of 30² + 40².
        assertThat(skew).isEqualTo(new PairSkew(130, 170, 50, 50));
        assertThat(skew.uncertainPs()).isEqualTo(100);
        assertThat(skew.mostPs()).isEqualTo(270);
        assertThat(PairSkew.of(other, one, new Delay(400, 600), 5)).isEqualTo(skew);
        // Rounded up: 51.25 and 1.41 ps.
        Arrival later = new Arrival(new Delay(1000, 1550), 0, 1);
        Arrival same = new Arrival(new Delay(1000, 1700), 0, 1);
        assertThat(PairSkew.of(later, same, new Delay(400, 600), 5))
                .isEqualTo(new PairSkew(0, 150, 52, 2));
    }

    /** What is shared can spread wider than either line: that is no local variation. */
    @Test
    void localVariationIsNeverNegative() {
        Arrival line = new Arrival(new Delay(100, 200), 0, 0);
        assertThat(PairSkew.of(line, line, new Delay(100, 300), 5).localPs()).isZero();
    }

    /** Lines of 1 to 3, 5 to 6 and 4 to 4 ns: middles 2, 5.5 and 4 ns. */
    @Test
    void theLatestLineIsLeftAlone() {
        assertThat(
                        TimeStampCorrections.ofPs(
                                List.of(
                                        new Delay(1000, 3000),
                                        new Delay(5000, 6000),
                                        new Delay(4000, 4000))))
                .containsExactly(3500, 0, 1500);
        assertThat(TimeStampCorrections.ofTakenPs(List.of(-5L, 7L))).containsExactly(12L, 0L);
        assertThat(TimeStampCorrections.ofPs(List.of())).isEmpty();
    }

    @Test
    void measuredDelaysAreLevelledByTheirMean() {
        assertThat(TimeStampCorrections.levelPs(List.of(10L, 20L, 60L))).isEqualTo(30);
        assertThat(TimeStampCorrections.levelPs(List.of())).isZero();
    }

    @Test
    void samplesAreRoundedUpToWholePicoseconds() {
        assertThat(Instrument.samplePs(300)).isEqualTo(3334);
        assertThat(Instrument.samplePs(0)).isZero();
        assertThat(InstrumentView.unknown(new Instrument(0, 300, 0), false).samplePs())
                .isEqualTo(3334);
        assertThat(InstrumentView.unknown(Instrument.UNKNOWN, false).samplePs()).isZero();
        assertThat(InstrumentView.unknown(Instrument.UNKNOWN, false).levelPs()).isZero();
    }
}
