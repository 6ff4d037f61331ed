package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.junit.jupiter.api.Test;
import padward.fabric.CellFunction;
import padward.fabric.CellFunction.Initial;
import padward.fabric.delay.Delay;
import padward.timing.Arrival;
import padward.timing.LaunchTime;
import padward.timing.PairSkew;

/** Setup, hold, skew and early and late derates, against the examples of textbooks. */
class TextbookRegistersTest {
    private static Delay both(int ps) {
        return new Delay(ps, ps);
    }

    private static RegisterCheck check(
            int setupPs, int holdPs, int earliestPs, int latestPs, int clockedPs, double percent) {
        CellFunction.Register function =
                new CellFunction.Register(
                        "d",
                        "clk",
                        "q",
                        Optional.empty(),
                        Optional.empty(),
                        Initial.UNKNOWN,
                        Optional.empty(),
                        Optional.empty(),
                        Optional.of(both(setupPs)),
                        Optional.of(both(holdPs)));
        LaunchTime launch =
                new LaunchTime(
                        Set.of("clk"),
                        Set.of(),
                        Set.of(),
                        Optional.of(both(earliestPs)),
                        Optional.of(both(latestPs)),
                        Set.of(),
                        Set.of());
        IoRegister register = new IoRegister("reg", Optional.of(function), 0, 1, List.of(2));
        return RegisterCheck.of(register, launch, Delay.ZERO, both(clockedPs), percent);
    }

    /**
     * Harris and Harris, Digital Design and Computer Architecture, section 3.5 (from its published
     * lecture material): clock-to-output 30 to 80 ps, setup 50, hold 60, each gate 25 to 40 ps;
     * three gates on the longest path, one on the shortest.
     */
    @Test
    void periodAndHoldOfTheTextbook() {
        RegisterCheck found = check(50, 60, 30 + 25, 80 + 3 * 40, 0, 0);
        assertThat(found.leastPeriod().orElseThrow().mostPs()).isEqualTo(250);
        assertThat(found.hold().orElseThrow().leastPs()).isEqualTo(-5);
        assertThat(found.failure(0)).hasValueSatisfying(f -> assertThat(f).contains("hold is not"));
        // A buffer on the short path, of the same delays as a gate.
        RegisterCheck buffered = check(50, 60, 30 + 2 * 25, 80 + 3 * 40, 0, 0);
        assertThat(buffered.hold().orElseThrow().leastPs()).isEqualTo(20);
        assertThat(buffered.failure(250)).isEmpty();
        assertThat(buffered.failure(249)).isPresent();
    }

    /** The same with 50 ps of skew, in the direction that is worse for each (from memory). */
    @Test
    void skewCountsAgainstBoth() {
        // The clock comes 50 ps earlier to the register that takes the data.
        RegisterCheck early = check(50, 60, 50 + 30 + 2 * 25, 50 + 80 + 3 * 40, 0, 0);
        assertThat(early.leastPeriod().orElseThrow().mostPs()).isEqualTo(300);
        // It comes 50 ps later.
        RegisterCheck late = check(50, 60, 30 + 2 * 25, 80 + 3 * 40, 50, 0);
        assertThat(late.hold().orElseThrow().leastPs()).isEqualTo(80 - 110);
    }

    /**
     * Bhasker and Chadha, Static Timing Analysis for Nanometer Designs, 2009, chapter 10 (all
     * numbers from memory): common clock path 1.2 ns, 0.8 ns from there to the launching register
     * and 0.86 ns to the capturing one, data 5.2 ns, setup 0.35 ns: period 5.49 ns without derates.
     * Late and early by 10 % each are a local variation of 20 %.
     */
    @Test
    void earlyAndLateDerates() {
        int launched = 1200 + 800 + 5200;
        int captured = 1200 + 860;
        assertThat(check(350, 0, launched, launched, captured, 0).leastPeriod().orElseThrow())
                .isEqualTo(new RegisterCheck.Slack(5490, 5490));
        // 1.1 · 7.2 − 0.9 · 2.06 + 0.35; the common path is not credited, which is on the safe
        // side.
        assertThat(check(350, 0, launched, launched, captured, 20).leastPeriod().orElseThrow())
                .isEqualTo(new RegisterCheck.Slack(6416, 6416));
    }

    /** Skew of the two branches of that clock: derates of the common path are credited back. */
    @Test
    void theCommonPathIsCreditedInSkew() {
        PairSkew skew =
                PairSkew.of(
                        new Arrival(both(1200 + 800), 0, 0),
                        new Arrival(both(1200 + 860), 0, 0),
                        both(1200),
                        20);
        int derated = (int) Math.round(1.1 * 2060 - 0.9 * 2000);
        int credit = (int) Math.round(1200 * (1.1 - 0.9));
        assertThat(skew.mostPs()).isEqualTo(derated - credit);
    }
}
