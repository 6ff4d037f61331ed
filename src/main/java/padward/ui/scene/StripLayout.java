package padward.ui.scene;

import padward.breakout.ask.Route;
import padward.fabric.Corner;

/**
 * Where the hops of a way stand on the strip map: to the scale of delay, but never nearer to each
 * other than a mark needs.
 */
public final class StripLayout {
    private final double[] positions;

    /**
     * @param route the way
     * @param corner corner whose delays give the scale
     * @param width room for the whole, pixels
     * @param margin room to keep free at both ends, pixels
     * @param leastStep least distance of two marks, pixels
     */
    public StripLayout(Route route, Corner corner, double width, double margin, double leastStep) {
        int count = route.hops().size() + (route.setting().isPresent() ? 1 : 0);
        positions = new double[count];
        double total = Math.max(1, route.total().at(corner));
        double removable = Math.max(0, width - 2 * margin - leastStep * (count - 1));
        positions[0] = margin;
        int before = 0;
        for (int i = 1; i < count; i++) {
            int now =
                    i < route.hops().size()
                            ? route.hops().get(i).total().at(corner)
                            : route.total().at(corner);
            positions[i] = positions[i - 1] + leastStep + removable * (now - before) / total;
            before = now;
        }
    }

    /** Number of marks: the hops, and the pad's driver when its delay is known. */
    public int count() {
        return positions.length;
    }

    /** Place of a mark, pixels from the left. */
    public double position(int mark) {
        return positions[mark];
    }

    /** Width that all marks need, without the right margin. */
    public double end() {
        return positions[positions.length - 1];
    }

    /** The mark nearest to a place. */
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
