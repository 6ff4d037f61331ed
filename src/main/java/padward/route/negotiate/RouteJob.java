package padward.route.negotiate;

import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.search.SearchSources;

/** A net to be routed: from one vertex, or the tree that it has, to several. Immutable. */
public final class RouteJob {
    private final RouteTree base;
    private final long[] baseCosts;
    private final int[] sinks;

    /**
     * @param root vertex of the driver
     * @param sinks vertices to reach, at least one
     */
    public RouteJob(int root, int... sinks) {
        this(RouteTree.of(root), new long[1], sinks);
    }

    /**
     * @param base wires that the net has already
     * @param baseCosts the cost at each place of these to begin with, such as the delay there
     * @param sinks vertices to reach, at least one
     */
    public RouteJob(RouteTree base, long[] baseCosts, int... sinks) {
        this.base = base;
        this.baseCosts = baseCosts.clone();
        this.sinks = sinks.clone();
    }

    /** From a net's own wires, each at the delay that the signal has there. */
    public static RouteJob from(Fabric fabric, RouteTree base, Corner corner, int... sinks) {
        return new RouteJob(base, SearchSources.along(fabric, base, corner).toCosts(), sinks);
    }

    /** Vertex of the driver. */
    public int root() {
        return base.root();
    }

    /** The wires that the net has already; at least the driver's vertex. */
    public RouteTree base() {
        return base;
    }

    /** The cost at a place of the base to begin with. */
    long baseCost(int place) {
        return baseCosts[place];
    }

    /** Number of sinks. */
    public int sinkCount() {
        return sinks.length;
    }

    /** A sink's vertex. */
    public int sink(int index) {
        return sinks[index];
    }
}
