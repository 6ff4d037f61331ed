package padward.breakout.ask;

import java.util.Arrays;
import java.util.BitSet;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.search.OneToAll;
import padward.route.search.PathSearch;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;

/**
 * How soon a net's signal can be anywhere, over what is free: the delay from the net's driver to
 * every vertex by the route with the shortest delay, from one run of Dijkstra's search, and the
 * least of these for each tile. Immutable once made; safe for all threads.
 *
 * <p>O(V log V) time at the most, 4.5 bytes a vertex.
 */
public final class DelayField {
    /** Stands for the delay of what cannot be reached. */
    public static final int NEVER = Integer.MAX_VALUE;

    private final Net net;
    private final Corner corner;
    private final Fabric fabric;
    private final OneToAll swept;
    private final int[] arrivalPs;
    private final int latestPs;

    private DelayField(Design design, Net net, Corner corner, OneToAll swept) {
        this.net = net;
        this.corner = corner;
        this.fabric = design.fabric();
        this.swept = swept;
        this.arrivalPs = new int[fabric.tileCount()];
        Arrays.fill(arrivalPs, NEVER);
        int latest = 0;
        for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
            int delay = atPs(vertex);
            if (delay != NEVER && fabric.kind(vertex) == VertexKind.WIRE) {
                if (fabric.listsTaps(vertex)) {
                    for (int tile : fabric.tapTiles(vertex)) {
                        arrivalPs[tile] = Math.min(arrivalPs[tile], delay);
                    }
                } else {
                    int tile = fabric.headTile(vertex);
                    arrivalPs[tile] = Math.min(arrivalPs[tile], delay);
                }
            }
        }
        for (int arrival : arrivalPs) {
            latest = arrival == NEVER ? latest : Math.max(latest, arrival);
        }
        latestPs = latest;
    }

    /**
     * Searches from a net.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public static DelayField of(Design design, Net net, Corner corner, Progress progress) {
        PathSearch search = new PathSearch(design.fabric());
        CostModel free = new QuestionContext(design, net, Optional.empty()).overFree();
        SearchSources starts = SearchSources.along(design.fabric(), net.route(), corner);
        return new DelayField(design, net, corner, search.sweep(starts, corner, free, progress));
    }

    /** The net that it sets out from. */
    public Net net() {
        return net;
    }

    /** The corner whose delays count. */
    public Corner corner() {
        return corner;
    }

    /** Delay from the net's driver to a vertex, picoseconds; {@link #NEVER} when nothing leads. */
    public int atPs(int vertex) {
        long cost = swept.cost(vertex);
        return cost >= NEVER ? NEVER : (int) cost;
    }

    /**
     * The least delay to a wire that can be left in a tile, at its end or, where its taps are
     * listed, at any of them, picoseconds; {@link #NEVER} when no such wire can be reached.
     */
    public int arrivalPs(int tile) {
        return arrivalPs[tile];
    }

    /** The latest arrival in any tile that is reached at all, picoseconds. */
    public int latestPs() {
        return latestPs;
    }

    /**
     * Where a search in the order of delay stands when it has settled all that is reached within a
     * time: the vertices that are, and from which an edge leads to one that is not. O(V + E).
     *
     * @param withinPs the time, picoseconds; {@link #NEVER} for a search that ends when nothing is
     *     left
     */
    public BitSet frontier(int withinPs, Progress progress) {
        BitSet result = new BitSet(fabric.vertexCount());
        EdgeCursor edges = fabric.edgesOut();
        for (int vertex = 0; vertex < fabric.vertexCount(); vertex++) {
            if ((vertex & 0xffff) == 0 && progress.cancelled()) {
                throw new CancellationException("stopped on request");
            }
            if (!isWithin(vertex, withinPs)) {
                continue;
            }
            edges.reset(vertex);
            while (edges.next()) {
                if (!isWithin(edges.other(), withinPs)) {
                    result.set(vertex);
                    break;
                }
            }
        }
        return result;
    }

    private boolean isWithin(int vertex, int withinPs) {
        int delay = atPs(vertex);
        return delay != NEVER && delay <= withinPs;
    }
}
