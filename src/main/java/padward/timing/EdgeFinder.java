package padward.timing;

import java.util.Optional;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;

/** Looks single edges up. One object belongs to one thread. */
public final class EdgeFinder {
    /**
     * An edge's kind and delay.
     *
     * @param kind what it is
     * @param delay its delay at both corners
     */
    public record EdgeValue(EdgeKind kind, Delay delay) {}

    private final Fabric fabric;
    private final EdgeCursor edges;

    /** A finder over a fabric. */
    public EdgeFinder(Fabric fabric) {
        this.fabric = fabric;
        this.edges = fabric.edgesOut();
    }

    /** The edge between two vertices. O(edges at {@code from}). */
    public Optional<EdgeValue> find(int from, int to) {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                return Optional.of(new EdgeValue(edges.kind(), edges.delay()));
            }
        }
        return Optional.empty();
    }

    /**
     * Whether a step between two vertices that are joined goes through a site. A pass-through joins
     * two pins of one site: to look for others would take a walk over all that a wire leads to.
     */
    public boolean isThrough(int from, int to) {
        int site = fabric.siteOf(to);
        return site != Fabric.NOTHING
                && fabric.siteOf(from) == site
                && get(from, to).kind() == EdgeKind.PASS_THROUGH;
    }

    /**
     * The edge between two vertices that are known to be joined.
     *
     * @throws IllegalArgumentException when they are not
     */
    public EdgeValue get(int from, int to) {
        return find(from, to)
                .orElseThrow(
                        () -> new IllegalArgumentException("no edge from " + from + " to " + to));
    }
}
