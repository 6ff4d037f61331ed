package padward.ui.scene;

import padward.breakout.ask.Route;
import padward.fabric.Corner;

/**
 * Where the hops of a route are on the strip map: to the scale of delay, but never closer to each
 * other than their marks need.
 */
public final class StripLayout {
    private final double[] positions;

    /**
     * @param route the route
     * @param corner corner whose delays set the scale
     * @param width width available, pixels
     * @param margin margin at both ends, pixels
     * @param leastStep least distance between two marks, pixels
     */
    public StripLayout(Route route, Corner corner, double width, double margin, double leastStep) {
        int count = route.hops().size() + (route.setting().isPresent() ? 1 : 0);
        positions = new double[count];
        double total = Math.max(1, route.total().at(corner));
        double scaled = Math.max(0, width - 2 * margin - leastStep * (count - 1));
        positions[0] = margin;
        int before = 0;
        for (int i = 1; i < count; i++) {
            int now =
                    i < route.hops().size()
                            ? route.hops().get(i).total().at(corner)
                            : route.total().at(corner);
            positions[i] = positions[i - 1] + leastStep + scaled * (now - before) / total;
            before = now;
        }
    }

    /** Number of marks: the hops, and the pad's driver if its delay is known. */
    public int count() {
        return positions.length;
    }

    /** Position of a mark, pixels from the left. */
    public double position(int mark) {
        return positions[mark];
    }

    /** Position of the last mark: the width without the right margin. */
    public double end() {
        return positions[positions.length - 1];
    }

    /** The mark nearest to a position. */
    public int nearest(double x) {
        int best = 0;
        for (int i = 1; i < positions.length; i++) {
            if (Math.abs(positions[i] - x) < Math.abs(positions[best] - x)) {
                best = i;
            }
        }
        return best;
    }
}
