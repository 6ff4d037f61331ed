package padward.capture;

/**
 * By how much a channel shows the same signal later than the others with it.
 *
 * @param channel the channel
 * @param ps how much later than the first of them, ps; negative is earlier
 * @param tolerancePs how far that can be off, either way, ps: the difference of two channels by no
 *     more than the tolerances of both together
 * @param changes how many changes it was read from
 */
public record ChannelSkew(Channel channel, int ps, int tolerancePs, int changes) {}
