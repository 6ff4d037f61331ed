package padward.capture;

import java.util.List;
import java.util.Map;
import padward.fabric.Delay;

/**
 * How channels are brought level. A change that the instrument stamps t has left the net's driver
 * between t − slow − T and t − fast, where T is the instrument's sampling period. Each channel is
 * set back by the middle of that, and all together forward by the greatest, so that no stamp gets
 * earlier. What remains uncertain is half of the span, either way.
 *
 * @param delays delays from the nets' drivers to the instrument by channel; channels that have none
 *     here stay where they are
 * @param samplePs sampling period of the instrument, ps; 0 for one that samples with the design's
 *     clock, or when it is not to be counted
 */
public record Deskew(Map<String, Delay> delays, int samplePs) {
    private static final long FS_PER_PS = 1000;

    /** Copies the delays. */
    public Deskew {
        delays = Map.copyOf(delays);
    }

    /** Twice the middle of the span by which a channel is late, ps. */
    private long twiceLatePs(String channel) {
        Delay delay = delays.get(channel);
        return (long) delay.fastPs() + delay.slowPs() + samplePs;
    }

    private long latestTwicePs() {
        return delays.keySet().stream().mapToLong(this::twiceLatePs).max().orElse(0);
    }

    /** What is added to a channel's stamps, fs; never negative, 0 for an unknown channel. */
    public long correctionFs(String channel) {
        return delays.containsKey(channel)
                ? (latestTwicePs() - twiceLatePs(channel)) * FS_PER_PS / 2
                : 0;
    }

    /** How far off a channel's corrected stamps can be, either way, fs. */
    public long uncertaintyFs(String channel) {
        Delay delay = delays.get(channel);
        return delay == null ? 0 : ((long) delay.spreadPs() + samplePs) * FS_PER_PS / 2;
    }

    /** The greatest uncertainty of some channels, fs. */
    long mostUncertainFs(List<String> channels) {
        return channels.stream().mapToLong(this::uncertaintyFs).max().orElse(0);
    }
}
