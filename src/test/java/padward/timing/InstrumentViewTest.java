package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.PadDriverOutput;

/** Rise times, bandwidths and loads against the figures of textbooks. */
class InstrumentViewTest {
    /** BW = 0.35 / t_r: 1 ns and 350 MHz, the pair that measurement textbooks give. */
    @Test
    void bandwidthAndRiseTime() {
        assertThat(InstrumentView.bandwidthMhz(1000)).isCloseTo(350, within(1e-9));
        assertThat(InstrumentView.risePs(350)).isCloseTo(1000, within(1e-9));
        assertThat(Math.log(9) / (2 * Math.PI)).isCloseTo(0.35, within(0.0004));
    }

    /**
     * Johnson and Graham, High-Speed Digital Design, 1993, chapter 3 (from memory, recomputed): a
     * 300 MHz oscilloscope with a 300 MHz probe, 1.1 ns each, shows an edge of 2.0 ns as 2.5 ns.
     */
    @Test
    void sumOfSquares() {
        assertThat(InstrumentView.behind(2000, 1100, 1100)).isCloseTo(2500, within(40.0));
        assertThat(InstrumentView.behind(1000, 1000)).isCloseTo(1000 * Math.sqrt(2), within(1e-9));
        assertThat(InstrumentView.behind(1000, 200) / 1000).isCloseTo(1.0198, within(1e-4));
        assertThat(InstrumentView.behind(1000, 1000.0 / 3) / 1000).isCloseTo(1.0541, within(1e-4));
    }

    /** The same book: 10 pF on 50 ohms adds 2.2 RC = 1.1 ns, here to an edge of no time. */
    @Test
    void loadSlowsTheEdge() {
        PadDriverOutput output = new PadDriverOutput(0, Delay.ZERO, new AtCorners(50, 50), 0);
        assertThat(output.riseAt(10).slowPs()).isCloseTo(1100, within(2));
        DriverSetting setting =
                new DriverSetting(
                        "any",
                        "",
                        3300,
                        8,
                        "slow",
                        new Delay(900, 1000),
                        Optional.of(output),
                        false);
        // 0.69 RC (Rabaey, Chandrakasan and Nikolic, 2nd edition, chapter 4)
        assertThat(setting.delayAt(10).at(Corner.SLOW)).isCloseTo(1345, within(3));
    }

    /**
     * The instrument's own rise time must be a third of the signal's for 5 %, a fifth for 2 %, as
     * makers of oscilloscopes advise; Johnson and Graham, chapter 3 (from memory): root of squares.
     */
    @Test
    void bandwidthForAnError() {
        double own = InstrumentView.bandwidthMhz(1000);
        assertThat(InstrumentView.bandwidthMhz(1000, 100 * (Math.sqrt(2) - 1)))
                .isCloseTo(own, within(1e-6));
        assertThat(InstrumentView.bandwidthMhz(1000, 5) / own).isBetween(3.0, 3.2);
        assertThat(InstrumentView.bandwidthMhz(1000, 2) / own).isBetween(4.9, 5.1);
    }

    @Test
    void aLighterLoadMakesEdgesFaster() {
        PadDriverOutput output =
                new PadDriverOutput(15, new Delay(2000, 2500), new AtCorners(50, 60), 0);
        assertThat(output.riseAt(15)).isEqualTo(new Delay(2000, 2500));
        assertThat(output.riseAt(5).fastPs()).isLessThan(1300);
        assertThat(output.riseAt(30).fastPs()).isGreaterThan(3000);
        // The load alone would take longer than stated: in proportion.
        PadDriverOutput small =
                new PadDriverOutput(15, new Delay(1000, 1000), new AtCorners(50, 50), 0);
        assertThat(small.riseAt(30).fastPs()).isEqualTo(2000);
    }

    @Test
    void whatIsRecommended() {
        PadDriverOutput output =
                new PadDriverOutput(5, new Delay(1000, 2000), new AtCorners(20, 30), 0);
        InstrumentView seen = InstrumentView.of(output, 5, Instrument.UNKNOWN, false);
        assertThat(seen.mostToggleMhz()).isCloseTo(200, within(1e-9));
        assertThat(seen.neededMsPerS()).isCloseTo(1600, within(1e-9));
        InstrumentView data = InstrumentView.of(output, 5, new Instrument(350, 0, 50), false);
        assertThat(data.neededMsPerS()).isCloseTo(200, within(1e-9));
        assertThat(data.levelPs()).isEqualTo(20_000);
        assertThat(data.seenRise().fastPs()).isEqualTo(1414);
        assertThat(data.clockPasses()).isTrue();
    }

    /** A clock has two levels a period: it needs twice the rate, and twice the pad. */
    @Test
    void aClockTogglesTwiceAPeriod() {
        PadDriverOutput output =
                new PadDriverOutput(5, new Delay(1000, 2000), new AtCorners(20, 30), 0);
        Instrument at300 = new Instrument(0, 0, 300);
        assertThat(InstrumentView.of(output, 5, at300, false).clockPasses()).isTrue();
        InstrumentView clock = InstrumentView.of(output, 5, at300, true);
        assertThat(clock.clockPasses()).isFalse();
        assertThat(clock.neededMsPerS()).isCloseTo(2400, within(1e-9));
    }

    /** What the user states of the instrument never becomes the advice. */
    @Test
    void theGivenRateIsNotTheNeededOne() {
        InstrumentView seen = InstrumentView.unknown(new Instrument(0, 100, 125), false);
        assertThat(seen.neededMsPerS()).isCloseTo(500, within(1e-9));
        assertThat(seen.samplePs()).isEqualTo(10_000);
        assertThat(seen.levelPs()).isEqualTo(8_000);
    }
}
