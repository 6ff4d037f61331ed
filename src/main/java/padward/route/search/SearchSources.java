package padward.route.search;

import java.util.Arrays;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.timing.TreeDelays;

/** Vertices from which a search may begin, each with what it has cost to get there. Immutable. */
public final class SearchSources {
    private final int[] vertices;
    private final long[] costs;

    /**
     * @param vertices the starts, each once
     * @param costs cost of being at each, not negative
     */
    public SearchSources(int[] vertices, long[] costs) {
        if (vertices.length != costs.length) {
            throw new IllegalArgumentException(
                    vertices.length + " vertices but " + costs.length + " costs");
        }
        if (Arrays.stream(costs).anyMatch(c -> c < 0)) {
            throw new IllegalArgumentException("a start's cost is negative");
        }
        this.vertices = vertices.clone();
        this.costs = costs.clone();
    }

    /** A net's tree: each vertex at the delay that the signal has there. O(size of the tree). */
    public static SearchSources along(Fabric fabric, RouteTree tree, Corner corner) {
        TreeDelays delays = TreeDelays.of(fabric, tree);
        long[] costs = new long[tree.size()];
        Arrays.setAll(costs, place -> delays.at(place).at(corner));
        return new SearchSources(tree.toVertices(), costs);
    }

    /** One start at no cost. */
    public static SearchSources at(int vertex) {
        return new SearchSources(new int[] {vertex}, new long[] {0});
    }

    /** Number of starts. */
    public int size() {
        return vertices.length;
    }

    /** The vertex of a start. */
    public int vertex(int index) {
        return vertices[index];
    }

    /** All vertices, as a copy. */
    int[] toVertices() {
        return vertices.clone();
    }

    /** All costs, as a copy. */
    public long[] toCosts() {
        return costs.clone();
    }

    /** All costs, which must fit, as a copy. */
    int[] toIntCosts() {
        return Arrays.stream(costs).mapToInt(Math::toIntExact).toArray();
    }

    /** The cost of a start. */
    public long cost(int index) {
        return costs[index];
    }
}
