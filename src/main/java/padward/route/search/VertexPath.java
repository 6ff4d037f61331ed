package padward.route.search;

import it.unimi.dsi.fastutil.ints.IntList;
import java.util.Arrays;

/** The vertices of a route, from a start to the goal. Immutable. */
public final class VertexPath {
    private final int[] vertices;

    /** Copies the vertices, of which there is at least one. */
    public VertexPath(int[] vertices) {
        this.vertices = vertices.clone();
    }

    /** The route whose vertices are listed from the goal back to the start. */
    static VertexPath ofReversed(IntList backwards) {
        int[] vertices = new int[backwards.size()];
        for (int i = 0; i < vertices.length; i++) {
            vertices[i] = backwards.getInt(vertices.length - 1 - i);
        }
        return new VertexPath(vertices);
    }

    /** Number of vertices. */
    public int size() {
        return vertices.length;
    }

    /** The vertex at a place, 0 being the start. */
    public int vertex(int place) {
        return vertices[place];
    }

    /** All vertices, as a copy. */
    public int[] toVertices() {
        return vertices.clone();
    }

    /** The start. */
    public int first() {
        return vertices[0];
    }

    /** The goal. */
    public int last() {
        return vertices[vertices.length - 1];
    }

    @Override
    public boolean equals(Object other) {
        return other instanceof VertexPath path && Arrays.equals(vertices, path.vertices);
    }

    @Override
    public int hashCode() {
        return Arrays.hashCode(vertices);
    }

    @Override
    public String toString() {
        return Arrays.toString(vertices);
    }
}
