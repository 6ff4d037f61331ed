package padward.breakout.ask;

import padward.design.Net;

/**
 * A signal near one that has no route out, and itself has one.
 *
 * @param net the net
 * @param difference how it differs: {@code one clock later}, {@code before cell pump/decide}
 * @param answer its own answer for the same pad: open or blocked
 */
public record NearbySignal(Net net, String difference, Answer answer) {}
