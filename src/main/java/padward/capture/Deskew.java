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
     * @param uncertaintyFs what is then uncertain about them, either way, fs
     */
    public record Shift(long fs, long uncertaintyFs) {
        /** In whole units; what rounding moves is uncertain too. */
        private Shift roundedTo(long unitFs) {
            long rounded = (fs + unitFs / 2) / unitFs * unitFs;
            long uncertain = uncertaintyFs + Math.abs(rounded - fs);
            return new Shift(rounded, (uncertain + unitFs - 1) / unitFs * unitFs);
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
        Map<String, Long> uncertain = new HashMap<>();
        delays.forEach(
                (name, d) -> {
                    int spread = d.isMeasured() ? 0 : d.chip().spreadPs();
                    uncertain.put(name, spread + 2L * d.tolerancePs() + samplePs);
                });
        return of(delays, uncertain, samplePs, samplePs, othersPs, 0);
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
        boolean anyMeasured = all.stream().anyMatch(ChannelDelay::isMeasured);
        var spreads = all.stream().mapToInt(d -> d.chip().spreadPs()).summaryStatistics();
        int most = all.isEmpty() ? 0 : spreads.getMax();
        // Twice the spread that moves with the die's corner, as all lines do more or less. Measured
        // lines do not, so next to them nobody does.
        long commonTwice = anyMeasured || all.isEmpty() ? 0 : (long) spreads.getMin() + most;
        Map<String, Long> uncertain = new HashMap<>();
        delays.forEach(
                (name, d) -> {
                    long apart = Math.abs(2L * d.chip().spreadPs() - commonTwice);
                    double local = d.chip().slowPs() * localPercent / PER_CENT;
                    long own = d.isMeasured() ? 0 : (apart + 1) / 2 + (long) Math.ceil(local);
                    uncertain.put(name, own + 2L * d.tolerancePs() + samplePs);
                });
        long others = (anyMeasured ? most : (commonTwice + 1) / 2) + samplePs;
        long common = (anyMeasured ? 2L * most : commonTwice) * FS_PER_PS / 4;
        return of(delays, uncertain, samplePs, others, othersPs, common);
    }

    /** From twice the uncertainties, ps. */
    private static Deskew of(
            Map<String, ChannelDelay> delays,
            Map<String, Long> uncertain,
            int samplePs,
            long othersUncertain,
            int othersPs,
            long commonFs) {
        long othersTwice = 2L * othersPs + samplePs;
        long latest = othersTwice;
        for (ChannelDelay delay : delays.values()) {
            latest = Math.max(latest, delay.twiceMiddlePs() + samplePs);
        }
        Map<String, Shift> shifts = new HashMap<>();
        for (Map.Entry<String, ChannelDelay> each : delays.entrySet()) {
            long late = each.getValue().twiceMiddlePs() + samplePs;
            shifts.put(each.getKey(), shift(latest - late, uncertain.get(each.getKey())));
        }
        return new Deskew(
                shifts,
                shift(latest - othersTwice, othersUncertain),
                samplePs,
                latest * FS_PER_PS / 2,
                commonFs);
    }

    private static Shift shift(long twicePs, long twiceUncertainPs) {
        return new Shift(twicePs * FS_PER_PS / 2, twiceUncertainPs * FS_PER_PS / 2);
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

    /** Whether the delay of a channel is known. */
    public boolean knows(String channel) {
        return shifts.containsKey(channel);
    }

    private Shift shift(String channel) {
        return shifts.getOrDefault(channel, others);
    }

    /** The amount added to a channel's time stamps, fs; never negative. */
    public long shiftFs(String channel) {
        return shift(channel).fs();
    }

    /** Uncertainty of a channel's shifted time stamps against others, in both directions, fs. */
    public long uncertaintyFs(String channel) {
        return shift(channel).uncertaintyFs();
    }

    /** The greatest uncertainty of some channels, fs. */
    long mostUncertainFs(List<String> channels) {
        return channels.stream().mapToLong(this::uncertaintyFs).max().orElse(0);
    }
}
