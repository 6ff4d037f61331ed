package padward.route.bound;

import java.util.List;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/**
 * The least delay per tile of distance on a fabric, as an exact fraction, and the lower bound that
 * follows from it.
 *
 * <p><b>Why the bound is admissible and consistent.</b> Give every vertex the place p of the tile
 * in which it ends, and let r be the least of delay(u, v) / |p(u) - p(v)| over all edges that move,
 * |·| being the distance along the axes. Let h(v) = floor(r · |p(v) - p(goal)|). For an edge from u
 * to v, by the triangle inequality, r·|p(u) - p(goal)| <= r·|p(u) - p(v)| + r·|p(v) - p(goal)| <=
 * delay(u, v) + r·|p(v) - p(goal)|. The delay is a whole number, so floors keep the inequality:
 * h(u) <= delay(u, v) + h(v). At the goal h is zero. Hence h is consistent, and a consistent bound
 * is admissible. Costs are never less than delays, so it is valid for every {@link
 * padward.route.cost.CostModel}.
 *
 * @param delayPs numerator of r, picoseconds
 * @param tiles denominator of r, tiles; 0 when no edge moves, and the bound is then zero
 */
public record DistanceRate(long delayPs, long tiles) {
    /** Looks at every step between a fabric's groups of wires. O(steps). */
    static DistanceRate of(WireGroups groups, Corner corner) {
        long bestDelay = 0;
        long bestTiles = 0;
        for (WireGroups.Step step : groups.areSound() ? groups.steps() : NO_STEPS) {
            int[] from = groups.span(step.from());
            int[] to = groups.span(step.to());
            long moved =
                    Math.abs(step.dx() + to[0] - from[0])
                            + (long) Math.abs(step.dy() + to[1] - from[1]);
            long delay = step.delayPs(corner);
            if (moved > 0 && (bestTiles == 0 || delay * bestTiles < bestDelay * moved)) {
                bestDelay = delay;
                bestTiles = moved;
            }
        }
        return new DistanceRate(bestDelay, bestTiles);
    }

    private static final List<WireGroups.Step> NO_STEPS = List.of();

    private static long distance(Fabric fabric, int a, int b) {
        return Math.abs(fabric.column(a) - fabric.column(b))
                + (long) Math.abs(fabric.row(a) - fabric.row(b));
    }

    /** The bound towards a goal. */
    public LowerBound towards(Fabric fabric, int goal) {
        if (tiles == 0) {
            return LowerBound.NONE;
        }
        int goalTile = fabric.headTile(goal);
        return vertex -> delayPs * distance(fabric, fabric.headTile(vertex), goalTile) / tiles;
    }
}
