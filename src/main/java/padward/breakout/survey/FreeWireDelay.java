package padward.breakout.survey;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.OneToAll;
import padward.route.search.PathSearch;
import padward.route.search.SearchSources;

/**
 * The least delay from one tile to another over what nothing uses, whatever net it might be for: a
 * measure of distance in time. From the end of any free wire in the first tile to the end of any
 * free wire in the other, at each corner by Dijkstra's search; O(V log V) at the most. That two
 * switches may exclude each other is not considered, so a route may have to be slower.
 */
public final class FreeWireDelay {
    /** A question whether to stop after as many vertices, less 1. */
    private static final int OFTEN = (1 << 16) - 1;

    private FreeWireDelay() {}

    /**
     * Searches.
     *
     * @param from a tile
     * @param to a tile
     * @return empty when no free wires lead there
     * @throws CancellationException when {@code progress} says so
     */
    public static Optional<Delay> between(Design design, int from, int to, Progress progress) {
        Fabric fabric = design.fabric();
        BitSet closed = design.occupancy().toBits();
        closed.or(design.occupancy().unusable());
        int[] starts = ends(fabric, from, closed, progress);
        int[] goals = ends(fabric, to, closed, progress);
        if (starts.length == 0 || goals.length == 0) {
            return Optional.empty();
        }
        PathSearch search = new PathSearch(fabric);
        SearchSources sources = new SearchSources(starts, new long[starts.length]);
        CostModel free = new FreeOnlyCost(closed);
        long[] least = new long[Corner.values().length];
        for (Corner corner : Corner.values()) {
            OneToAll swept = search.sweep(sources, corner, free, progress);
            least[corner.ordinal()] =
                    Arrays.stream(goals).mapToLong(swept::cost).min().orElse(CostModel.CLOSED);
            if (least[corner.ordinal()] == CostModel.CLOSED) {
                return Optional.empty();
            }
        }
        return Optional.of(
                new Delay(
                        Delay.ps(least[Corner.FAST.ordinal()]),
                        Delay.ps(least[Corner.SLOW.ordinal()])));
    }

    /** The free wires that end in a tile. */
    private static int[] ends(Fabric fabric, int tile, BitSet closed, Progress progress) {
        IntArrayList ends = new IntArrayList();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if ((v & OFTEN) == 0 && progress.cancelled()) {
                throw new CancellationException();
            }
            if (!closed.get(v) && fabric.kind(v) == VertexKind.WIRE && fabric.headTile(v) == tile) {
                ends.add(v);
            }
        }
        return ends.toIntArray();
    }
}
