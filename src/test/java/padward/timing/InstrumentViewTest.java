package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Optional;
import org.junit.jupiter.api.Test;
import padward.fabric.AtCorners;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.DriverSetting;
import padward.fabric.PadDriverOutput;

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

    @Test
    void whatIsRecommended() {
        PadDriverOutput output =
                new PadDriverOutput(5, new Delay(1000, 2000), new AtCorners(20, 30), 0);
        InstrumentView seen = InstrumentView.of(output, 5, Instrument.UNKNOWN);
        assertThat(seen.neededMhz()).isCloseTo(350, within(1e-9));
        assertThat(seen.mostToggleMhz()).isCloseTo(200, within(1e-9));
        assertThat(seen.sampleMhz()).isCloseTo(1600, within(1e-9));
        assertThat(seen.sampleUncertaintyPs()).isEqualTo(625);
        InstrumentView clocked = InstrumentView.of(output, 5, new Instrument(350, 0, 50));
        assertThat(clocked.sampleMhz()).isCloseTo(200, within(1e-9));
        assertThat(clocked.seenRise().fastPs()).isEqualTo(1414);
        assertThat(clocked.clockPasses()).isTrue();
        assertThat(InstrumentView.of(output, 5, new Instrument(0, 0, 500)).clockPasses()).isFalse();
        assertThat(InstrumentView.unknown(new Instrument(0, 500, 0)).sampleUncertaintyPs())
                .isEqualTo(2000);
    }
}
