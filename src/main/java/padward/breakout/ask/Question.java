package padward.breakout.ask;

import padward.design.Design;
import padward.design.Net;
import padward.fabric.Corner;
import padward.fabric.Pad;

/**
 * "How does this net get out to that pad?"
 *
 * @param design the finished design
 * @param net the net to bring out
 * @param pad index of the pad in {@code fabric.pads()}
 * @param corner corner at which the route has the shortest delay
 */
public record Question(Design design, Net net, int pad, Corner corner) {
    /** The pad itself. */
    public Pad padValue() {
        return design.fabric().pads().get(pad);
    }
}
