package padward.capture;

import java.util.List;
import java.util.Map;
import padward.fabric.Delay;

/**
 * The shifts that deskew the channels of a capture. A change with time stamp t left the net's
 * driver between t − slow − T and t − fast, where T is the instrument's sampling period. Each
 * channel is shifted back by the middle of that span, and all channels forward by the largest such
 * shift, so that no time stamp gets earlier. Half of the span remains uncertain, in both
 * directions.
 *
 * @param delays delays from the nets' drivers to the instrument by channel; channels without one
 *     are not shifted
 * @param samplePs sampling period of the instrument, ps; 0 for an instrument that samples with the
 *     design's clock, or to ignore sampling
 */
public record Deskew(Map<String, Delay> delays, int samplePs) {
    private static final long FS_PER_PS = 1000;

    /** Copies the delays. */
    public Deskew {
        delays = Map.copyOf(delays);
    }

    /** Twice the middle of the span by which a channel is late, ps: twice, to stay an integer. */
    private long twiceLatePs(String channel) {
        Delay delay = delays.get(channel);
        return (long) delay.fastPs() + delay.slowPs() + samplePs;
    }

    private long latestTwicePs() {
        return delays.keySet().stream().mapToLong(this::twiceLatePs).max().orElse(0);
    }

    /**
     * The amount added to a channel's time stamps, fs; never negative, 0 for an unknown channel.
     */
    public long shiftFs(String channel) {
        return delays.containsKey(channel)
                ? (latestTwicePs() - twiceLatePs(channel)) * FS_PER_PS / 2
                : 0;
    }

    /** Uncertainty of a channel's shifted time stamps, in both directions, fs. */
    public long uncertaintyFs(String channel) {
        Delay delay = delays.get(channel);
        return delay == null ? 0 : ((long) delay.spreadPs() + samplePs) * FS_PER_PS / 2;
    }

    /** The greatest uncertainty of some channels, fs. */
    long mostUncertainFs(List<String> channels) {
        return channels.stream().mapToLong(this::uncertaintyFs).max().orElse(0);
    }
}
