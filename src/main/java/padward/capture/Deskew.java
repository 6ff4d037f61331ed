package padward.capture;

import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;

/**
 * The shifts that deskew the channels of a capture. A change with time stamp t left the net's
 * driver between t − delay − T and t − delay, where T is the instrument's sampling period. Each
 * channel is shifted back by the middle of that, and all channels, those of unknown delay among
 * them, forward by the same amount, so that no time stamp gets earlier.
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
        Map<String, Shift> shifts, Shift others, int samplePs, long referenceFs, long commonFs) {
    /** Shifts nothing. */
    public static final Deskew NONE = independent(Map.of(), 0, 0);

    private static final long FS_PER_PS = 1000;
    private static final double PER_CENT = 100;

    /**
     * What happens to one channel.
     *
     * @param fs what is added to its time stamps, fs; not negative
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

        /** How uncertain the time between changes of two channels is, either way, fs. */
        long uncertainAgainst(Shift other) {
            long tolerance = (long) Math.ceil(Math.hypot(toleranceFs, other.toleranceFs));
            return Math.abs(cornerFs - other.cornerFs) + ownFs + other.ownFs + tolerance;
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
    public static Deskew independent(Map<String, ChannelDelay> delays, int samplePs, int othersPs) {
        Plan plan = new Plan(samplePs, othersPs);
        delays.forEach(
                (name, d) -> {
                    long spread = d.isMeasured() ? 0 : d.chip().spreadPs();
                    plan.add(name, d, 0, spread + 2L * d.tolerancePs(), 0);
                });
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
            Map<String, ChannelDelay> delays, int samplePs, int othersPs, double localPercent) {
        Collection<ChannelDelay> all = delays.values();
        int most = all.stream().mapToInt(d -> d.chip().spreadPs()).max().orElse(0);
        Plan plan = new Plan(samplePs, othersPs);
        delays.forEach(
                (name, d) -> {
                    long local = (long) Math.ceil(d.chip().slowPs() * localPercent / PER_CENT);
                    if (d.isMeasured()) {
                        // The corner is in what was measured, and the same for all of these lines;
                        // only against others, which it does not move, it counts in full.
                        plan.add(name, d, -most, 2L * d.tolerancePs(), 0);
                    } else {
                        plan.add(name, d, d.chip().spreadPs(), local, d.tolerancePs());
                    }
                });
        return plan.deskew(most * FS_PER_PS / 2);
    }

    /** Puts shifts together, once all channels are known. */
    private static final class Plan {
        /** A channel, with twice all its times, to stay whole numbers. */
        private record Late(long twicePs, long twiceCornerPs, long twiceOwnPs, int tolerancePs) {
            Shift toShift(long latestTwicePs) {
                return new Shift(
                        (latestTwicePs - twicePs) * FS_PER_PS / 2,
                        twiceCornerPs * FS_PER_PS / 2,
                        twiceOwnPs * FS_PER_PS / 2,
                        tolerancePs * FS_PER_PS);
            }
        }

        private final int samplePs;
        private final Late others;
        private final Map<String, Late> channels = new HashMap<>();

        Plan(int samplePs, int othersPs) {
            this.samplePs = samplePs;
            this.others = new Late(2L * othersPs + samplePs, 0, samplePs, 0);
        }

        void add(String name, ChannelDelay delay, long corner, long own, int tolerancePs) {
            long late = delay.twiceMiddlePs() + samplePs;
            channels.put(name, new Late(late, corner, own + samplePs, tolerancePs));
        }

        Deskew deskew(long commonFs) {
            long latest =
                    channels.values().stream()
                            .mapToLong(Late::twicePs)
                            .reduce(others.twicePs(), Math::max);
            Map<String, Shift> shifts = new HashMap<>();
            channels.forEach((name, late) -> shifts.put(name, late.toShift(latest)));
            return new Deskew(
                    shifts, others.toShift(latest), samplePs, latest * FS_PER_PS / 2, commonFs);
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
        Map<String, Shift> rounded = new HashMap<>();
        shifts.forEach((name, shift) -> rounded.put(name, shift.roundedTo(unitFs)));
        return new Deskew(rounded, others.roundedTo(unitFs), samplePs, referenceFs, commonFs);
    }

    /** What happens to a channel. */
    public Shift shift(String channel) {
        return shifts.getOrDefault(channel, others);
    }

    /** The amount added to a channel's time stamps, fs; never negative. */
    public long shiftFs(String channel) {
        return shift(channel).fs();
    }

    /** How uncertain the time between changes of two channels is, either way, fs. */
    public long uncertaintyFs(String one, String other) {
        return shift(one).uncertainAgainst(shift(other));
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
