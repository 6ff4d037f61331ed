package padward.ui.scene;

import java.util.OptionalInt;
import padward.breakout.ask.Route;
import padward.fabric.delay.Corner;

/**
 * Where the hops of a route are on the strip map: to the scale of delay, but never closer to each
 * other than their marks need. A hop that is longer than all others together, as a pad's driver
 * often is, would leave them no scale: its line is broken and shorter.
 */
public final class StripLayout {
    /** Part of the width that is to scale which a broken hop gets. */
    private static final double BROKEN_SHARE = 0.2;

    private final double[] positions;
    private final OptionalInt broken;

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
        double[] delays = new double[count];
        int before = 0;
        int longest = 0;
        for (int i = 1; i < count; i++) {
            int now =
                    i < route.hops().size()
                            ? route.hops().get(i).total().at(corner)
                            : route.total().at(corner);
            delays[i] = now - before;
            longest = delays[i] > delays[longest] ? i : longest;
            before = now;
        }
        double others = total - delays[longest];
        // Where the rest would fill its part of the width anyway, nothing is gained.
        boolean breaks = count > 2 && others > 0 && others < delays[longest];
        broken = breaks ? OptionalInt.of(longest) : OptionalInt.empty();
        positions[0] = margin;
        for (int i = 1; i < count; i++) {
            double share = delays[i] / total;
            if (breaks) {
                share = i == longest ? BROKEN_SHARE : (1 - BROKEN_SHARE) * delays[i] / others;
            }
            positions[i] = positions[i - 1] + leastStep + scaled * share;
        }
    }

    /**
     * The mark at which the hop ends whose line is broken, because it is too long for the scale.
     */
    public OptionalInt broken() {
        return broken;
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
