package padward.route;

/** A net to be routed: from one vertex to several. Immutable. */
public final class RouteJob {
    private final int root;
    private final int[] sinks;

    /**
     * @param root vertex of the driver
     * @param sinks vertices to reach, at least one
     */
    public RouteJob(int root, int... sinks) {
        this.root = root;
        this.sinks = sinks.clone();
    }

    /** Vertex of the driver. */
    public int root() {
        return root;
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
