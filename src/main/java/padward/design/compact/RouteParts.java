package padward.design.compact;

import java.io.IOException;
import java.util.BitSet;
import padward.design.RouteTree;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;
import padward.fabric.compact.Damaged;

/**
 * The routes of a design's nets in a compact copy. A vertex is stated as one of the edges of its
 * parent, by its place among these: mostly one byte, and always a vertex to which there is an edge.
 * The parent is the vertex before unless the lowest bit says that another one follows.
 */
final class RouteParts {
    private final CompactIn in;
    private final Fabric fabric;
    private final EdgeCursor edges;

    /** Vertices to which routes come, or at which they start. */
    private final BitSet taken;

    RouteParts(CompactIn in, Fabric fabric) {
        this.in = in;
        this.fabric = fabric;
        this.edges = fabric.edgesOut();
        this.taken = new BitSet(fabric.vertexCount());
    }

    /** Writes routes. */
    static final class Writer {
        private final CompactOut out;
        private final EdgeCursor edges;

        Writer(CompactOut out, Fabric fabric) {
            this.out = out;
            this.edges = fabric.edgesOut();
        }

        void write(RouteTree tree) throws IOException {
            out.smallNumber(tree.size() - 1);
            for (int place = 1; place < tree.size(); place++) {
                int parent = tree.parent(place);
                int edge = placeOfEdge(tree.vertex(parent), tree.vertex(place));
                boolean goesOn = parent == place - 1;
                out.smallNumber(edge << 1 | (goesOn ? 0 : 1));
                if (!goesOn) {
                    out.smallNumber(parent);
                }
            }
        }

        private int placeOfEdge(int from, int to) throws IOException {
            edges.reset(from);
            for (int place = 0; edges.next(); place++) {
                if (edges.other() == to) {
                    return place;
                }
            }
            throw new Damaged("a route over an edge that is not there");
        }
    }

    /**
     * Reads the route of one net.
     *
     * @param startsBeside whether another net may come to the vertex where it starts
     */
    RouteTree read(int root, boolean startsBeside) throws IOException {
        int size = in.smallCount(fabric.vertexCount() - 1) + 1;
        int[] vertices = new int[size];
        int[] parents = new int[size];
        vertices[0] = root;
        parents[0] = -1;
        if (!startsBeside) {
            take(root);
        }
        for (int place = 1; place < size; place++) {
            int edge = in.smallNumber(Integer.MAX_VALUE);
            int parent = (edge & 1) == 0 ? place - 1 : in.smallNumber(place - 1);
            Damaged.unless(edges.reset(vertices[parent], edge >>> 1), "an edge that is not there");
            int vertex = edges.other();
            Damaged.unless(vertex != root, "a route that comes back to where it starts");
            take(vertex);
            vertices[place] = vertex;
            parents[place] = parent;
        }
        return RouteTree.ofPlaces(vertices, parents);
    }

    private void take(int vertex) throws IOException {
        Damaged.unless(!taken.get(vertex), "a vertex that has a net already");
        taken.set(vertex);
    }
}
