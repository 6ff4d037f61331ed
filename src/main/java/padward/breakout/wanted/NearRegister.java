package padward.breakout.wanted;

/**
 * A register near a signal that is not there any more, whose net is.
 *
 * @param net name of its net in the present design
 * @param relation where it stood, seen from the signal
 */
public record NearRegister(String net, String relation) {}
