package padward.capture;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Stream;
import padward.fabric.delay.Delay;

/**
 * The shifts that deskew the channels of a capture. A change with time stamp t left the net's
 * driver between t − delay − T and t − delay, where T is the instrument's sampling period. Each
 * channel is shifted back by the middle of that, and all channels, those of unknown delay among
 * them, forward by the same amount, so that no time stamp gets earlier. Where the two edges of a
 * line differ in delay, each is shifted by its own.
 *
 * <p>What remains uncertain depends on the model. With one die, the delay of every line is the same
 * part of the way from its fast to its slow corner, but for local variation; only that, and what is
 * outside the die, makes the order of two channels' changes uncertain. What the die's corner does
 * to all lines together is told apart ({@link #commonFs}).
 *
 * @param shifts by channel
 * @param others for channels whose delay is not known
 * @param samplePs sampling period of the instrument, ps; 0 when not known or ignored
 * @param referenceFs what all times are later than at the nets' drivers, fs
 * @param commonFs how far all lines of the die can be off together, either way, fs
 */
public record Deskew(
        Map<String, Edges> shifts, Edges others, int samplePs, long referenceFs, long commonFs) {
    /** Shifts nothing. */
    public static final Deskew NONE = independent(Map.of(), 0, 0);

    private static final long FS_PER_PS = 1000;
    private static final double PER_CENT = 100;

    /**
     * What happens to the changes of one channel in one direction.
     *
     * @param fs what is added to their time stamps, fs; not negative
     * @param cornerFs how far the die's corner then moves them, either way, fs: at the same corner
     *     all channels in the same direction, so that only differences count
     * @param ownFs what else is uncertain about them, either way, fs
     * @param toleranceFs the same of parts that are independent of other channels' and add to these
     *     by their squares, fs
     */
    public record Shift(long fs, long cornerFs, long ownFs, long toleranceFs) {
        /** In whole units; what rounding moves is uncertain too. */
        private Shift roundedTo(long unitFs) {
            long rounded = (fs + unitFs / 2) / unitFs * unitFs;
            return new Shift(rounded, cornerFs, ownFs + Math.abs(rounded - fs), toleranceFs);
        }

        /** The same for a change that was put elsewhere, so that it stays behind the last one. */
        Shift movedBy(long furtherFs) {
            return new Shift(fs, cornerFs, ownFs + furtherFs, toleranceFs);
        }

        /** How uncertain the time between changes of two channels is, either way, fs. */
        long uncertainAgainst(Shift other) {
            long tolerance = (long) Math.ceil(Math.hypot(toleranceFs, other.toleranceFs));
            return Math.abs(cornerFs - other.cornerFs) + ownFs + other.ownFs + tolerance;
        }
    }

    /**
     * What happens to the changes of one channel.
     *
     * @param toHigh to those from 0 to 1
     * @param toLow to those from 1 to 0
     * @param either to all others
     */
    public record Edges(Shift toHigh, Shift toLow, Shift either) {
        /** What happens to a change. */
        public Shift of(SignalEdge edge) {
            return switch (edge) {
                case TO_HIGH -> toHigh;
                case TO_LOW -> toLow;
                case EITHER -> either;
            };
        }

        /** Whether the two edges are shifted by different amounts. */
        public boolean areApart() {
            return apartFs() > 0;
        }

        /** By how much the shifts of any two edges differ at most, fs. */
        long apartFs() {
            return all().mapToLong(Shift::fs).max().orElseThrow() - leastFs();
        }

        /** The smallest shift, fs. */
        long leastFs() {
            return all().mapToLong(Shift::fs).min().orElseThrow();
        }

        private Stream<Shift> all() {
            return Stream.of(toHigh, toLow, either);
        }

        private Edges roundedTo(long unitFs) {
            return new Edges(
                    toHigh.roundedTo(unitFs), toLow.roundedTo(unitFs), either.roundedTo(unitFs));
        }

        /** How uncertain the time between known edges of two channels is, either way, fs. */
        long uncertainAgainst(Edges other) {
            return most(Stream.of(toHigh, toLow), List.of(other.toHigh, other.toLow));
        }

        /** The same between changes of any kind. */
        long mostUncertainAgainst(Edges other) {
            return most(all(), other.all().toList());
        }

        private static long most(Stream<Shift> ones, List<Shift> others) {
            return ones.flatMapToLong(one -> others.stream().mapToLong(one::uncertainAgainst))
                    .max()
                    .orElseThrow();
        }
    }

    /** Copies the shifts. */
    public Deskew {
        shifts = Map.copyOf(shifts);
    }

    /**
     * By delays that may lie anywhere between their corners, each for itself.
     *
     * @param samplePs sampling period, ps; 0 for an instrument that samples with the design's
     *     clock, or to ignore sampling
     * @param othersPs delay of all other channels, ps
     */
    public static Deskew independent(
            Map<String, CaptureChannelDelay> delays, int samplePs, int othersPs) {
        Plan plan = new Plan(samplePs, othersPs);
        delays.forEach(
                (name, d) ->
                        plan.add(
                                name,
                                edge -> {
                                    long spread = d.isMeasured() ? 0 : d.chip(edge).spreadPs();
                                    long own = spread + 2L * d.tolerancePs();
                                    return plan.late(d, edge, 0, own, 0);
                                }));
        return plan.deskew(0);
    }

    /**
     * By delays of one die.
     *
     * @param samplePs as above
     * @param othersPs as above; these channels do not come from the die
     * @param localPercent by how much two routes of the same delay can differ on the die
     */
    public static Deskew oneDie(
            Map<String, CaptureChannelDelay> delays,
            int samplePs,
            int othersPs,
            double localPercent) {
        int most =
                delays.values().stream()
                        .mapToInt(CaptureChannelDelay::mostSpreadPs)
                        .max()
                        .orElse(0);
        Plan plan = new Plan(samplePs, othersPs);
        delays.forEach(
                (name, d) ->
                        plan.add(
                                name,
                                edge -> {
                                    if (d.isMeasured()) {
                                        // The corner is in what was measured, and the same for all
                                        // of these lines; only against others, which it does not
                                        // move, it counts in full.
                                        return plan.late(d, edge, -most, 2L * d.tolerancePs(), 0);
                                    }
                                    Delay chip = d.chip(edge);
                                    double local = chip.slowPs() * localPercent / PER_CENT;
                                    return plan.late(
                                            d,
                                            edge,
                                            chip.spreadPs(),
                                            (long) Math.ceil(local),
                                            d.tolerancePs());
                                }));
        return plan.deskew(most * FS_PER_PS / 2);
    }

    /** Puts shifts together, once all channels are known. */
    private static final class Plan {
        /** Changes in one direction, with twice all times, to stay whole numbers. */
        private record Late(long twicePs, long twiceCornerPs, long twiceOwnPs, int tolerancePs) {
            Shift toShift(long latestTwicePs) {
                return new Shift(
                        (latestTwicePs - twicePs) * FS_PER_PS / 2,
                        twiceCornerPs * FS_PER_PS / 2,
                        twiceOwnPs * FS_PER_PS / 2,
                        tolerancePs * FS_PER_PS);
            }
        }

        /** A channel. */
        private record Line(Late toHigh, Late toLow, Late either) {
            Stream<Late> all() {
                return Stream.of(toHigh, toLow, either);
            }

            Edges toEdges(long latestTwicePs) {
                return new Edges(
                        toHigh.toShift(latestTwicePs),
                        toLow.toShift(latestTwicePs),
                        either.toShift(latestTwicePs));
            }
        }

        private final int samplePs;
        private final Line others;
        private final Map<String, Line> channels = new HashMap<>();

        Plan(int samplePs, int othersPs) {
            this.samplePs = samplePs;
            Late late = new Late(2L * othersPs + samplePs, 0, samplePs, 0);
            this.others = new Line(late, late, late);
        }

        Late late(
                CaptureChannelDelay delay,
                SignalEdge edge,
                long corner,
                long own,
                int tolerancePs) {
            return new Late(
                    delay.twiceMiddlePs(edge) + samplePs,
                    corner,
                    own + delay.twiceUnknownEdgePs(edge) + samplePs,
                    tolerancePs);
        }

        void add(String name, Function<SignalEdge, Late> late) {
            channels.put(
                    name,
                    new Line(
                            late.apply(SignalEdge.TO_HIGH),
                            late.apply(SignalEdge.TO_LOW),
                            late.apply(SignalEdge.EITHER)));
        }

        Deskew deskew(long commonFs) {
            long latest =
                    Stream.concat(channels.values().stream(), Stream.of(others))
                            .flatMap(Line::all)
                            .mapToLong(Late::twicePs)
                            .max()
                            .orElseThrow();
            Map<String, Edges> shifts = new HashMap<>();
            channels.forEach((name, line) -> shifts.put(name, line.toEdges(latest)));
            return new Deskew(
                    shifts, others.toEdges(latest), samplePs, latest * FS_PER_PS / 2, commonFs);
        }
    }

    /** What the times of a deskewed capture refer to, as a sentence. */
    public String referenceText() {
        return String.format(
                Locale.ROOT,
                "Times are when the changes left the nets' drivers, plus %.3f ns.",
                referenceFs / 1e6);
    }

    /** The same in whole units of time. */
    Deskew roundedTo(long unitFs) {
        Map<String, Edges> rounded = new HashMap<>();
        shifts.forEach((name, edges) -> rounded.put(name, edges.roundedTo(unitFs)));
        return new Deskew(rounded, others.roundedTo(unitFs), samplePs, referenceFs, commonFs);
    }

    /** What happens to a channel. */
    public Edges edges(String channel) {
        return shifts.getOrDefault(channel, others);
    }

    /** The amount added to a channel's time stamps, fs; never negative. */
    public long shiftFs(String channel, SignalEdge edge) {
        return edges(channel).of(edge).fs();
    }

    /** How uncertain the time between known edges of two channels is, either way, fs. */
    public long uncertaintyFs(String one, String other) {
        return edges(one).uncertainAgainst(edges(other));
    }

    /** The greatest uncertainty of a channel against any other of some, fs. */
    public long mostUncertainFs(String channel, List<String> channels) {
        return channels.stream()
                .filter(c -> !c.equals(channel))
                .mapToLong(c -> uncertaintyFs(channel, c))
                .max()
                .orElse(0);
    }
}
