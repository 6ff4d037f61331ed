package padward.capture;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.fabric.delay.Delay;
import padward.fabric.pad.EdgeDelays;

/**
 * Captures of a simulated bench on which rising and falling edges take different times: each edge
 * comes back by its own delay, in its order, and what is stated to be uncertain holds the truth.
 */
class EdgeDeskewProperties {
    private static final int CHANNELS = 3;
    private static final int SAMPLE_PS = 100;
    private static final double LOCAL_PERCENT = 5;

    @TempDir private Path folder;

    /** A change: when it left the net's driver, and when the instrument stamped it, ps. */
    private record Change(double left, long stamp, boolean rises) {}

    /** A line's stated delays. */
    private record Line(EdgeDelays edges) {
        static Line drawn(Random random) {
            return new Line(new EdgeDelays(delay(random), delay(random)));
        }

        private static Delay delay(Random random) {
            int slow = 4000 + random.nextInt(2500);
            return new Delay(slow / 2 + random.nextInt(200), slow);
        }

        Delay of(boolean rises) {
            return rises ? edges.toHigh() : edges.toLow();
        }
    }

    /** What the instrument takes of a line, on a die at a corner; short levels are frequent. */
    private static List<Change> changes(Line line, double corner, Random random) {
        double[] real = new double[2];
        for (int edge = 0; edge < 2; edge++) {
            Delay stated = line.of(edge == 1);
            double local = (2 * random.nextDouble() - 1) * LOCAL_PERCENT / 200 * stated.slowPs();
            real[edge] = stated.fastPs() + corner * (stated.slowPs() - stated.fastPs()) + local;
        }
        List<Change> result = new ArrayList<>();
        double left = 20_000;
        long last = 0;
        for (int i = 0; i < 40; i++) {
            boolean rises = i % 2 == 0;
            long stamp;
            do {
                left += random.nextInt(3) == 0 ? random.nextInt(20_000) : random.nextInt(150) + 1;
                stamp = (long) Math.ceil((left + real[rises ? 1 : 0]) / SAMPLE_PS) * SAMPLE_PS;
                // A level that ends before it begins does not reach the instrument.
            } while (stamp <= last);
            last = stamp;
            result.add(new Change(left, stamp, rises));
        }
        return result;
    }

    private static String capture(List<List<Change>> all) {
        TreeMap<Long, StringBuilder> at = new TreeMap<>();
        StringBuilder text = new StringBuilder("$timescale 1 ps $end\n");
        StringBuilder first = new StringBuilder("$dumpvars");
        for (int i = 0; i < all.size(); i++) {
            char code = (char) ('a' + i);
            text.append("$var wire 1 " + code + " d" + i + " $end\n");
            first.append(" 0" + code);
            for (Change change : all.get(i)) {
                at.computeIfAbsent(change.stamp(), t -> new StringBuilder())
                        .append(change.rises() ? 1 : 0)
                        .append(code)
                        .append('\n');
            }
        }
        text.append("$enddefinitions $end\n").append(first).append(" $end\n");
        at.forEach((time, changes) -> text.append("#" + time + "\n").append(changes));
        return text.toString();
    }

    private record Result(Map<String, VcdReader.Variable> read, Deskewed told) {
        /** Times of a channel's changes, ps. */
        double[] times(int channel) {
            return read.get("d" + channel).changes().stream()
                    .skip(1)
                    .mapToDouble(c -> c.fs().doubleValue() / 1000)
                    .toArray();
        }

        /** Whether the order is marked as uncertain at a time, ps. */
        boolean isMarked(double ps) {
            String value = "0";
            for (VcdReader.Change change : read.get("deskew.order_uncertain").changes()) {
                if (change.fs().doubleValue() / 1000 <= ps) {
                    value = change.value();
                }
            }
            return value.equals("1");
        }
    }

    private Result deskewed(String capture, Deskew deskew) throws Exception {
        Path in = Files.writeString(folder.resolve("in.vcd"), capture);
        Path out = folder.resolve("out.vcd");
        Deskewed told = Captures.deskew(in, out, names -> deskew);
        return new Result(VcdReader.read(Files.readString(out)), told);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8})
    void eachEdgeComesBackByItsOwnDelay(long seed) throws Exception {
        Random random = new Random(seed);
        double levelsOff = 0;
        double levelsOffByMiddle = 0;
        long moved = 0;
        int wrong = 0;
        for (int bench = 0; bench < 20; bench++) {
            double corner = random.nextDouble();
            List<Line> lines = new ArrayList<>();
            List<List<Change>> all = new ArrayList<>();
            Map<String, CaptureChannelDelay> delays = new HashMap<>();
            Map<String, CaptureChannelDelay> middles = new HashMap<>();
            for (int i = 0; i < CHANNELS; i++) {
                Line line = Line.drawn(random);
                lines.add(line);
                all.add(changes(line, corner, random));
                Delay middle = line.edges().middle();
                delays.put("d" + i, CaptureChannelDelay.of(middle).withEdges(line.edges()));
                middles.put("d" + i, CaptureChannelDelay.of(middle));
            }
            String capture = capture(all);
            Deskew deskew = Deskew.oneDie(delays, SAMPLE_PS, 0, LOCAL_PERCENT);
            Result result = deskewed(capture, deskew);
            Result byMiddle =
                    deskewed(capture, Deskew.oneDie(middles, SAMPLE_PS, 0, LOCAL_PERCENT));
            double[][] furtherPs = new double[CHANNELS][];
            for (int i = 0; i < CHANNELS; i++) {
                List<Change> changes = all.get(i);
                double[] times = result.times(i);
                assertThat(times).hasSameSizeAs(changes).isSorted().doesNotHaveDuplicates();
                furtherPs[i] = new double[times.length];
                long here = 0;
                for (int k = 0; k < times.length; k++) {
                    Deskew.Shift shift = shift(deskew, i, changes.get(k));
                    furtherPs[i][k] = times[k] - changes.get(k).stamp() - shift.fs() / 1000.0;
                    here += furtherPs[i][k] > 1 ? 1 : 0;
                    if (furtherPs[i][k] > 1) {
                        assertThat(result.isMarked(times[k])).isTrue();
                    }
                    if (k > 0) {
                        double level = changes.get(k).left() - changes.get(k - 1).left();
                        double[] middle = byMiddle.times(i);
                        levelsOff += Math.abs(times[k] - times[k - 1] - level);
                        levelsOffByMiddle += Math.abs(middle[k] - middle[k - 1] - level);
                    }
                }
                assertThat(result.told().keptInOrder().getOrDefault("d" + i, 0L))
                        .isGreaterThanOrEqualTo(here);
                moved += here;
            }
            for (int i = 0; i < CHANNELS; i++) {
                for (int j = i + 1; j < CHANNELS; j++) {
                    wrong += checkPair(result, deskew, all, furtherPs, i, j);
                }
            }
        }
        // The levels inside are found again, and what this test is about did occur.
        assertThat(2 * levelsOff).isLessThan(levelsOffByMiddle);
        assertThat(moved).isGreaterThan(20);
        assertThat(wrong).isGreaterThan(20);
    }

    private static Deskew.Shift shift(Deskew deskew, int channel, Change change) {
        return deskew.edges("d" + channel)
                .of(change.rises() ? SignalEdge.TO_HIGH : SignalEdge.TO_LOW);
    }

    /** The truth is within what is stated; each order that is wrong is marked. */
    private static int checkPair(
            Result result,
            Deskew deskew,
            List<List<Change>> all,
            double[][] furtherPs,
            int one,
            int other) {
        double[] ours = result.times(one);
        double[] theirs = result.times(other);
        int wrong = 0;
        for (int k = 0; k < ours.length; k++) {
            Change mine = all.get(one).get(k);
            for (int l = 0; l < theirs.length; l++) {
                Change its = all.get(other).get(l);
                double apart = ours[k] - theirs[l];
                double truth = mine.left() - its.left();
                double stated =
                        shift(deskew, one, mine).uncertainAgainst(shift(deskew, other, its))
                                        / 1000.0
                                + furtherPs[one][k]
                                + furtherPs[other][l];
                // Rounding to the capture's unit adds half of one at either end.
                assertThat(Math.abs(apart - truth)).isLessThanOrEqualTo(stated + 2);
                if (apart * truth < 0) {
                    wrong++;
                    assertThat(result.isMarked((ours[k] + theirs[l]) / 2)).isTrue();
                }
            }
        }
        return wrong;
    }

    /** A high level of 100 ps that the pad would make 0.9 ns shorter: its edges do not cross. */
    @Test
    void edgesOfOneChannelDoNotCross() throws Exception {
        EdgeDelays edges = new EdgeDelays(new Delay(1000, 1000), new Delay(2000, 2000));
        Map<String, CaptureChannelDelay> delays =
                Map.of("d0", CaptureChannelDelay.of(edges.middle()).withEdges(edges));
        Deskew deskew = Deskew.oneDie(delays, 0, 0, 0);
        assertThat(deskew.shiftFs("d0", SignalEdge.TO_HIGH)).isEqualTo(1_000_000);
        assertThat(deskew.shiftFs("d0", SignalEdge.TO_LOW)).isZero();
        List<Change> changes =
                List.of(
                        new Change(0, 10_000, true),
                        new Change(0, 10_100, false),
                        new Change(0, 10_200, true),
                        new Change(0, 30_000, false));
        for (String form : List.of("vcd", "csv")) {
            Path in = folder.resolve("level." + form);
            String text = capture(List.of(changes));
            Files.writeString(
                    in,
                    form.equals("vcd")
                            ? text
                            : "time_ps,d0\n0,0\n10000,1\n10100,0\n10200,1\n30000,0\n");
            Path out = folder.resolve("level-out." + form);
            Deskewed told = Captures.deskew(in, out, names -> deskew);
            assertThat(told.keptInOrder()).containsExactly(Map.entry("d0", 1L));
            String back = Files.readString(out);
            if (form.equals("vcd")) {
                assertThat(new Result(VcdReader.read(back), told).times(0))
                        .containsExactly(11_000, 11_001, 11_200, 30_000);
            } else {
                assertThat(back.lines())
                        .contains("11000,1,1", "11000.001,0,1", "11200,1,0", "30000,0,0");
            }
        }
    }
}
