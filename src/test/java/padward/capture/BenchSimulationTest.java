package padward.capture;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
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

    @TempDir private Path folder;

    private static double within(Random random, double half) {
        return (2 * random.nextDouble() - 1) * half;
    }

    private static long shiftFs(Deskew deskew, String channel) {
        return deskew.shiftFs(channel, SignalEdge.TO_HIGH);
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
            Map<String, CaptureChannelDelay> delays = new HashMap<>();
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
                        CaptureChannelDelay.calculated(
                                new Delay(fast, slow), trace + lead, (int) Math.ceil(tolerance)));
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
                            stamp[i]
                                    - stamp[j]
                                    + (shiftFs(die, one) - shiftFs(die, other)) / 1000.0;
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

    /**
     * One signal on all lines, on one of them inverted, whose delays differ by up to a nanosecond
     * more than any model says: what the capture shows brings them together to less than a sample,
     * whatever the signal's period is to the instrument's, and no more is wrong than is stated.
     */
    @ParameterizedTest
    @ValueSource(longs = {4, 5, 6})
    void calibrationLeavesLessThanASample(long seed) throws Exception {
        Random random = new Random(seed);
        double worstBefore = 0;
        for (int bench = 0; bench < 100; bench++) {
            double[] late = new double[LINES];
            for (int i = 0; i < LINES; i++) {
                late[i] = 5000 + within(random, 1000);
            }
            // Some periods are whole numbers of samples: then all changes meet the same phase.
            double half =
                    bench % 2 == 0 ? SAMPLE_PS * (100 + random.nextInt(50)) : 12_345.6 + bench;
            List<ChannelSkew> found =
                    ChannelDifferences.read(
                            capture(late, half, random),
                            c ->
                                    c.own().equals("d2")
                                            ? ChannelDifferences.Shown.INVERTED
                                            : ChannelDifferences.Shown.AS_IT_IS,
                            SAMPLE_PS,
                            Progress.NONE);
            assertThat(found).hasSize(LINES);
            for (int i = 0; i < LINES; i++) {
                for (int j = i + 1; j < LINES; j++) {
                    double truth = late[j] - late[i];
                    double left = found.get(j).ps() - found.get(i).ps() - truth;
                    worstBefore = Math.max(worstBefore, Math.abs(truth));
                    // Rounding to whole picoseconds is not the instrument's.
                    assertThat(Math.abs(left)).isLessThan(SAMPLE_PS + 1);
                    assertThat(Math.abs(left))
                            .isLessThanOrEqualTo(
                                    found.get(i).tolerancePs() + found.get(j).tolerancePs());
                }
            }
        }
        assertThat(worstBefore).isGreaterThan(10 * SAMPLE_PS);
    }

    /** What the instrument takes of a signal that changes 40 times. */
    private Path capture(double[] late, double half, Random random) throws IOException {
        TreeMap<Long, StringBuilder> stamps = new TreeMap<>();
        double start = 20_000 + random.nextDouble() * SAMPLE_PS;
        for (int change = 0; change < 40; change++) {
            for (int i = 0; i < late.length; i++) {
                double at = start + change * half + late[i];
                long stamp = (long) Math.ceil(at / SAMPLE_PS) * SAMPLE_PS;
                stamps.computeIfAbsent(stamp, s -> new StringBuilder())
                        .append(i == 2 ? change % 2 : 1 - change % 2)
                        .append((char) ('a' + i))
                        .append('\n');
            }
        }
        StringBuilder text = new StringBuilder("$timescale 1 ps $end\n");
        for (int i = 0; i < late.length; i++) {
            text.append("$var wire 1 ").append((char) ('a' + i)).append(" d" + i + " $end\n");
        }
        text.append("$enddefinitions $end\n$dumpvars 0a 0b 1c 0d $end\n");
        stamps.forEach((stamp, changes) -> text.append("#" + stamp + "\n").append(changes));
        return Files.writeString(folder.resolve("bench.vcd"), text);
    }
}
