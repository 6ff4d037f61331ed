package padward.capture;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import padward.base.BadInput;
import padward.base.Progress;

/**
 * By how much channels that all show one signal differ.
 *
 * <p>A change counts where every channel shows it. Which changes are the same one is only certain
 * while channels differ by much less than the signal's period: each must be the nearest to the
 * other, by no more than a quarter of the time to the next change in the same direction. An
 * instrument stamps a change up to one sampling period T late; of n changes the mean of what it
 * adds lies between 0 and T too, so that each channel is known to ± T/2, the same ones for all, and
 * the difference of any two to less than T. Where differences vary by more than T, which sampling
 * cannot cause, half of what exceeds it is added.
 */
public final class ChannelDifferences {
    /** How a channel shows the signal. */
    public enum Shown {
        /** It shows another signal. */
        NOT_AT_ALL,
        /** It is high while the signal is. */
        AS_IT_IS,
        /** It is low while the signal is high. */
        INVERTED
    }

    private static final int SAFE_PART = 4;
    private static final long FS_PER_PS = 1000;
    private static final double MOST_PS = 1e9;

    private final List<LevelChanges.Line> lines;
    private final Progress progress;
    private final double[] sum;
    private final long[] least;
    private final long[] most;
    private int changes;

    private ChannelDifferences(List<LevelChanges.Line> lines, Progress progress) {
        this.lines = lines;
        this.progress = progress;
        sum = new double[lines.size()];
        least = new long[lines.size()];
        most = new long[lines.size()];
    }

    /**
     * Reads the differences from a capture.
     *
     * @param shown how each of its channels shows the signal
     * @param samplePs sampling period of the instrument, ps; 0 when not known or ignored
     * @return for each of these channels, in the order of the capture
     * @throws BadInput when the capture cannot be read, or does not show one signal on two channels
     *     or more
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static List<ChannelSkew> read(
            Path capture, Function<Channel, Shown> shown, int samplePs, Progress progress)
            throws BadInput {
        LevelChanges read = new LevelChanges(shown, progress);
        Captures.read(capture, read);
        List<LevelChanges.Line> lines = read.lines();
        if (lines.size() < 2) {
            String expected = "two channels or more that are called like lines of the calibration";
            throw new BadInput(capture.toString(), "", expected, "" + lines.size());
        }
        for (LevelChanges.Line line : lines) {
            if (line.times(true).size() + line.times(false).size() == 0) {
                throw new BadInput(
                        capture.toString(),
                        "channel " + line.channel().name(),
                        "changes between 0 and 1",
                        "none");
            }
        }
        ChannelDifferences differences = new ChannelDifferences(lines, progress);
        differences.compare(true);
        differences.compare(false);
        return differences.results(capture, samplePs);
    }

    private void compare(boolean rising) {
        if (lines.stream().anyMatch(l -> l.times(rising).size() == 0)) {
            return;
        }
        LevelChanges.Times first = lines.get(0).times(rising);
        long[] apart = new long[lines.size()];
        for (int i = 0; i < first.size(); i++) {
            progress.check();
            if (isShownByAll(first, i, rising, apart)) {
                for (int line = 0; line < apart.length; line++) {
                    sum[line] += apart[line];
                    least[line] = changes == 0 ? apart[line] : Math.min(least[line], apart[line]);
                    most[line] = changes == 0 ? apart[line] : Math.max(most[line], apart[line]);
                }
                changes++;
            }
        }
    }

    /** Whether all channels show a change of the first; then also by how much later. */
    private boolean isShownByAll(
            LevelChanges.Times first, int index, boolean rising, long[] apart) {
        long at = first.get(index);
        long before = index == 0 ? Long.MAX_VALUE : at - first.get(index - 1);
        long after = index + 1 == first.size() ? Long.MAX_VALUE : first.get(index + 1) - at;
        long limit = Math.min(before, after) / SAFE_PART;
        for (int line = 1; line < apart.length; line++) {
            LevelChanges.Times times = lines.get(line).times(rising);
            long shown = times.get(times.nearest(at));
            apart[line] = shown - at;
            if (Math.abs(apart[line]) > limit || first.nearest(shown) != index) {
                return false;
            }
        }
        return true;
    }

    private List<ChannelSkew> results(Path capture, int samplePs) throws BadInput {
        if (changes == 0) {
            throw new BadInput(
                    capture.toString(),
                    "",
                    "one signal on all channels of the calibration, apart by at most a quarter of"
                            + " its period",
                    "no change that all of them show");
        }
        List<ChannelSkew> results = new ArrayList<>();
        for (int line = 0; line < sum.length; line++) {
            double ps = sum[line] / changes / FS_PER_PS;
            double varies = (double) (most[line] - least[line]) / FS_PER_PS;
            double tolerance = (samplePs + Math.max(0, varies - samplePs)) / 2;
            Channel channel = lines.get(line).channel();
            if (Math.abs(ps) > MOST_PS || tolerance > MOST_PS) {
                throw new BadInput(
                        capture.toString(),
                        "channel " + channel.name(),
                        "a difference of at most a millisecond",
                        "more");
            }
            results.add(
                    new ChannelSkew(
                            channel,
                            (int) Math.round(ps),
                            // What rounding moves is uncertain too.
                            (int) Math.ceil(tolerance + (Math.rint(ps) == ps ? 0 : 0.5)),
                            changes));
        }
        return results;
    }
}
