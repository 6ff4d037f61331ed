package padward.capture;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.fabric.delay.Delay;

/**
 * A bench with known truth: a die somewhere between its corners, local variation, traces and leads
 * within their tolerances, an instrument that samples. What deskewing states must be true, and it
 * must call far fewer orders uncertain than lines that are taken independently of one another.
 *
 * <p>Delays at the fast corner are half of those at the slow one, as process, voltage and
 * temperature make them together (common practice, no source); the lines of a group differ by up to
 * 1 ns of 8. The instrument takes 10 GS/s.
 */
class BenchSimulationTest {
    private static final int CAPTURES = 10_000;
    private static final int LINES = 4;
    private static final int SAMPLE_PS = 100;
    private static final double LOCAL_PERCENT = 5;

    private static double within(Random random, double half) {
        return (2 * random.nextDouble() - 1) * half;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void statedUncertaintiesAreTrueAndSmall(long seed) {
        Random random = new Random(seed);
        int pairs = 0;
        int outside = 0;
        int marked = 0;
        int markedBefore = 0;
        for (int capture = 0; capture < CAPTURES; capture++) {
            Map<String, ChannelDelay> delays = new HashMap<>();
            double corner = random.nextDouble();
            double[] edge = new double[LINES];
            double[] stamp = new double[LINES];
            for (int i = 0; i < LINES; i++) {
                int slow = 7000 + random.nextInt(1000);
                int fast = slow / 2;
                int trace = 100 + random.nextInt(300);
                int lead = 1500;
                double tolerance = Math.hypot(trace * 0.1, lead * 0.05);
                delays.put(
                        "d" + i,
                        new ChannelDelay(
                                new Delay(fast, slow),
                                trace + lead,
                                (int) Math.ceil(tolerance),
                                false));
                double chip = fast + corner * (slow - fast);
                double late =
                        chip * (1 + within(random, LOCAL_PERCENT / 200))
                                + trace * (1 + within(random, 0.1))
                                + lead * (1 + within(random, 0.05));
                edge[i] = 20_000 + random.nextInt(20_000);
                stamp[i] = Math.ceil((edge[i] + late) / SAMPLE_PS) * SAMPLE_PS;
            }
            Deskew die = Deskew.oneDie(delays, SAMPLE_PS, 0, LOCAL_PERCENT);
            Deskew before = Deskew.independent(delays, SAMPLE_PS, 0);
            for (int i = 0; i < LINES; i++) {
                for (int j = i + 1; j < LINES; j++) {
                    String one = "d" + i;
                    String other = "d" + j;
                    double apart =
                            stamp[i] - stamp[j] + (die.shiftFs(one) - die.shiftFs(other)) / 1000.0;
                    double limit = die.uncertaintyFs(one, other) / 1000.0;
                    pairs++;
                    outside += Math.abs(apart - (edge[i] - edge[j])) > limit ? 1 : 0;
                    marked += Math.abs(apart) < limit ? 1 : 0;
                    double old = before.uncertaintyFs(one, other) / 1000.0;
                    markedBefore += Math.abs(apart) < old ? 1 : 0;
                }
            }
        }
        assertThat(outside).isLessThanOrEqualTo(pairs / 1000);
        assertThat(5 * marked).isLessThanOrEqualTo(markedBefore);
    }
}
