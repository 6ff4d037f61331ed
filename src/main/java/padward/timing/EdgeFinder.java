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

    private final EdgeCursor edges;

    /** A finder over a fabric. */
    public EdgeFinder(Fabric fabric) {
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
