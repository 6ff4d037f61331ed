package padward.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.Arrays;
import padward.fabric.Fabric;

/**
 * The wires of one net as a tree: vertices with their parents, the driver's vertex first and every
 * parent before its children. Immutable.
 */
public final class RouteTree {
    private final int[] vertices;
    private final int[] parents;

    private RouteTree(int[] vertices, int[] parents) {
        this.vertices = vertices;
        this.parents = parents;
    }

    /** A tree of the root alone. */
    public static RouteTree of(int root) {
        return new RouteTree(new int[] {root}, new int[] {-1});
    }

    /**
     * Of checked arrays, which are kept and not to be changed.
     *
     * @param vertices the vertices, each once
     * @param parents the place of each one's parent, before its own; -1 for the first
     */
    public static RouteTree ofPlaces(int[] vertices, int[] parents) {
        return new RouteTree(vertices, parents);
    }

    /** Number of vertices, at least 1. */
    public int size() {
        return vertices.length;
    }

    /** The vertex at a place in the tree's order; place 0 is the root. */
    public int vertex(int place) {
        return vertices[place];
    }

    /** The place of the parent, -1 for the root; always less than {@code place}. */
    public int parent(int place) {
        return parents[place];
    }

    /** The vertex that drives the tree. */
    public int root() {
        return vertices[0];
    }

    /** The place of a vertex, or {@link Fabric#NOTHING}. O(size). */
    public int placeOf(int vertex) {
        for (int i = 0; i < vertices.length; i++) {
            if (vertices[i] == vertex) {
                return i;
            }
        }
        return Fabric.NOTHING;
    }

    /** Whether this has every vertex of another tree, each under the same parent. O(sizes). */
    public boolean contains(RouteTree part) {
        Int2IntOpenHashMap parentOf = new Int2IntOpenHashMap();
        parentOf.defaultReturnValue(Fabric.NOTHING);
        for (int place = 1; place < size(); place++) {
            parentOf.put(vertices[place], vertices[parents[place]]);
        }
        for (int place = 1; place < part.size(); place++) {
            if (parentOf.get(part.vertices[place]) != part.vertices[part.parents[place]]) {
                return false;
            }
        }
        return root() == part.root();
    }

    /** The vertices in the tree's order, as a copy. */
    public int[] toVertices() {
        return vertices.clone();
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof RouteTree tree
                && Arrays.equals(vertices, tree.vertices)
                && Arrays.equals(parents, tree.parents);
    }

    @Override
    public int hashCode() {
        return 31 * Arrays.hashCode(vertices) + Arrays.hashCode(parents);
    }

    /** Collects a tree edge by edge. Not for sharing between threads. */
    public static final class Builder {
        private final Int2IntOpenHashMap placeByVertex = new Int2IntOpenHashMap();
        private int[] vertices = new int[8];
        private int[] parents = new int[8];
        private int size;

        /** Starts at the driver's vertex. */
        public Builder(int root) {
            placeByVertex.defaultReturnValue(Fabric.NOTHING);
            append(root, -1);
        }

        /** Starts with a tree that is there. O(its size). */
        public static Builder from(RouteTree tree) {
            Builder result = new Builder(tree.root());
            for (int place = 1; place < tree.size(); place++) {
                result.append(tree.vertex(place), tree.parent(place));
            }
            return result;
        }

        /** Whether the tree has the vertex already. */
        public boolean contains(int vertex) {
            return placeByVertex.containsKey(vertex);
        }

        /**
         * Adds a vertex under one that is there already.
         *
         * @throws IllegalArgumentException when {@code from} is missing or {@code to} is there
         */
        public Builder add(int from, int to) {
            int parent = placeByVertex.get(from);
            if (parent == Fabric.NOTHING) {
                throw new IllegalArgumentException("vertex " + from + " is not on the tree");
            }
            if (contains(to)) {
                throw new IllegalArgumentException("vertex " + to + " is on the tree already");
            }
            append(to, parent);
            return this;
        }

        private void append(int vertex, int parent) {
            if (size == vertices.length) {
                vertices = Arrays.copyOf(vertices, size * 2);
                parents = Arrays.copyOf(parents, size * 2);
            }
            placeByVertex.put(vertex, size);
            vertices[size] = vertex;
            parents[size++] = parent;
        }

        /** The finished tree. */
        public RouteTree build() {
            return new RouteTree(Arrays.copyOf(vertices, size), Arrays.copyOf(parents, size));
        }
    }
}
