package padward.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.Arrays;
import padward.fabric.Fabric;

/**
 * The wires of one net as a tree: vertices with their parents, the driver's vertex first and every
 * parent before its children. Immutable.
 */
public final class RouteTree {
    /** Up to here, looking at all vertices is as quick as an index. */
    private static final int SMALL = 64;

    /** Trees looked through until an index is worth its time. */
    private static final int SCANS = 16;

    private static final int[] NO_INDEX = {};

    private final int[] vertices;
    private final int[] parents;

    /** Places by ascending vertex; empty until that was worth it. */
    private volatile int[] byVertex = NO_INDEX;

    /** Vertices that were looked at; threads may miss some of each other's, which does no harm. */
    private long lookedAt;

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

    /**
     * The place of a vertex, or {@link Fabric#NOTHING}. O(size) the first times, O(log size) for
     * whoever asks for many vertices of one tree.
     */
    public int placeOf(int vertex) {
        int[] index = byVertex;
        if (index.length > 0) {
            return placeOf(vertex, index);
        }
        int place = 0;
        while (place < vertices.length && vertices[place] != vertex) {
            place++;
        }
        lookedAt += place;
        if (lookedAt > (long) SCANS * vertices.length && vertices.length > SMALL) {
            byVertex = sortedPlaces();
        }
        return place < vertices.length ? place : Fabric.NOTHING;
    }

    private int placeOf(int vertex, int[] index) {
        int low = 0;
        int high = index.length - 1;
        while (low <= high) {
            int middle = (low + high) >>> 1;
            int there = vertices[index[middle]];
            if (there == vertex) {
                return index[middle];
            }
            if (there < vertex) {
                low = middle + 1;
            } else {
                high = middle - 1;
            }
        }
        return Fabric.NOTHING;
    }

    private int[] sortedPlaces() {
        long[] both = new long[vertices.length];
        for (int place = 0; place < both.length; place++) {
            both[place] = (long) vertices[place] << 32 | place;
        }
        Arrays.sort(both);
        int[] result = new int[both.length];
        for (int i = 0; i < both.length; i++) {
            result[i] = (int) both[i];
        }
        return result;
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
