package padward.route.bound;

import java.util.EnumMap;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.base.SharedResult;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/**
 * What searches calculate from a fabric once: its groups of wires, the tables of least delays, the
 * least delay per tile, how wires lead from tile to tile. Every fabric owns one index. Each part is
 * calculated when it is first asked for, with the {@link Progress} of the caller that asks, and can
 * be cancelled; a cancelled part is not kept, and the next caller calculates it again. Safe for all
 * threads.
 */
public final class FabricIndex {
    private final Fabric fabric;
    private final SharedResult<WireGroups> groups;
    private final Map<Corner, SharedResult<DistanceRate>> rates = new EnumMap<>(Corner.class);
    private final Map<Corner, Map<LowerBoundTable.Goals, SharedResult<Optional<LowerBoundTable>>>>
            tables = new EnumMap<>(Corner.class);
    private final Map<Corner, SharedResult<Optional<TileMoves>>> tileMoves =
            new EnumMap<>(Corner.class);

    private FabricIndex(Fabric fabric) {
        this.fabric = fabric;
        this.groups = new SharedResult<>(progress -> new WireGroups(fabric, progress));
        for (Corner corner : Corner.values()) {
            rates.put(
                    corner,
                    new SharedResult<>(progress -> DistanceRate.of(groups.get(progress), corner)));
            tileMoves.put(
                    corner, new SharedResult<>(progress -> TileMoves.of(fabric, corner, progress)));
            Map<LowerBoundTable.Goals, SharedResult<Optional<LowerBoundTable>>> byGoals =
                    new EnumMap<>(LowerBoundTable.Goals.class);
            for (LowerBoundTable.Goals goals : LowerBoundTable.Goals.values()) {
                byGoals.put(
                        goals,
                        new SharedResult<>(
                                progress ->
                                        LowerBoundTable.of(
                                                fabric,
                                                groups.get(progress),
                                                corner,
                                                goals,
                                                progress)));
            }
            tables.put(corner, byGoals);
        }
    }

    /** The index that a fabric owns. O(1): nothing is calculated yet. */
    public static FabricIndex of(Fabric fabric) {
        return fabric.derived().get(FabricIndex.class, () -> new FabricIndex(fabric));
    }

    /**
     * The table of least delays; empty when the fabric has too little order for one, or would need
     * too much memory.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public Optional<LowerBoundTable> table(
            Corner corner, LowerBoundTable.Goals goals, Progress progress) {
        return tables.get(corner).get(goals).get(progress);
    }

    /**
     * How wires lead from tile to tile; empty for fabrics that are no patterns, and for patterns
     * whose wires can be left in several tiles.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public Optional<TileMoves> tileMoves(Corner corner, Progress progress) {
        return tileMoves.get(corner).get(progress);
    }

    /**
     * The least delay per tile of distance.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public DistanceRate distanceRate(Corner corner, Progress progress) {
        return rates.get(corner).get(progress);
    }

    /**
     * The longest delay of any edge at the slow corner, picoseconds.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public int longestEdgePs(Progress progress) {
        return groups.get(progress).longestPs();
    }

    /**
     * The best bound known for delays to a goal: by the table where the fabric allows one, else by
     * distance.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public LowerBound bestBound(int goal, Corner corner, Progress progress) {
        Optional<LowerBoundTable> table =
                switch (fabric.kind(goal)) {
                    case PAD -> table(corner, LowerBoundTable.Goals.PADS, progress);
                    case PIN -> table(corner, LowerBoundTable.Goals.PINS, progress);
                    case WIRE -> Optional.empty();
                };
        return table.isPresent()
                ? table.get().towards(fabric, goal)
                : distanceRate(corner, progress).towards(fabric, goal);
    }
}
