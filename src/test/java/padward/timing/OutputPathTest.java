package padward.timing;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Optional;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.EdgeDelays;
import padward.fabric.pad.PadDriverOutput;

/** Where a signal arrives whose driver has a delay for each of its two edges. */
class OutputPathTest {
    private static OutputPath path(EdgeDelays edges) {
        Delay none = Delay.ZERO;
        return new OutputPath(
                new PadLoad(0, false, false),
                none,
                edges.either(),
                none,
                none,
                none,
                none,
                Optional.of(edges));
    }

    /** By hand: 800 ± 200 at the fast corner, 1700 ± 300 at the slow one. */
    @Test
    void bothEdgesAreWithinTheTolerance() {
        Arrival arrival =
                path(new EdgeDelays(new Delay(1000, 2000), new Delay(600, 1400)))
                        .after(new Delay(10, 20));
        assertThat(arrival.nominal()).isEqualTo(new Delay(810, 1720));
        assertThat(arrival.outsideTolerancePs()).isEqualTo(300);
        assertThat(arrival.edges())
                .contains(new EdgeDelays(new Delay(1010, 2020), new Delay(610, 1420)));
    }

    @Test
    void noDrawnEdgeIsOutside() {
        Random random = new Random(1);
        for (int i = 0; i < 1000; i++) {
            EdgeDelays edges = new EdgeDelays(drawn(random), drawn(random));
            Arrival arrival = path(edges).after(Delay.ZERO);
            int most = 0;
            for (Corner corner : Corner.values()) {
                for (Delay edge : new Delay[] {edges.toHigh(), edges.toLow()}) {
                    most = Math.max(most, Math.abs(edge.at(corner) - arrival.chip().at(corner)));
                }
            }
            assertThat(most).isBetween(arrival.outsideTolerancePs() - 1, most);
            assertThat(arrival.outsideTolerancePs()).isGreaterThanOrEqualTo(most);
        }
    }

    private static Delay drawn(Random random) {
        int fast = random.nextInt(2000);
        return new Delay(fast, fast + random.nextInt(2000));
    }

    /** What the load adds is the same for both edges: ln 2 times 100 ohms times 10 pF. */
    @Test
    void loadDelaysBothEdges() {
        PadDriverOutput output =
                new PadDriverOutput(5, new Delay(800, 900), new AtCorners(100, 100), 0);
        EdgeDelays edges = new EdgeDelays(new Delay(1000, 2000), new Delay(600, 1400));
        DriverSetting setting =
                new DriverSetting(
                        "s",
                        "",
                        3300,
                        8,
                        "slow",
                        edges.either(),
                        Optional.of(output),
                        false,
                        Optional.of(edges));
        assertThat(setting.edgesAt(15))
                .contains(new EdgeDelays(new Delay(1693, 2693), new Delay(1293, 2093)));
        assertThat(setting.edgesAt(15).map(EdgeDelays::either)).contains(setting.delayAt(15));
    }
}
