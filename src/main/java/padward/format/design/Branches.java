package padward.format.design;

import it.unimi.dsi.fastutil.ints.IntArrayList;

/** The branches of a route as files state them: vertices in a row, and where each branch ends. */
final class Branches {
    static final Branches NONE = new Branches(new int[0], new int[0]);

    private final int[] vertices;
    private final int[] ends;

    private Branches(int[] vertices, int[] ends) {
        this.vertices = vertices;
        this.ends = ends;
    }

    boolean isEmpty() {
        return ends.length == 0;
    }

    int count() {
        return ends.length;
    }

    /** How many vertices a branch has. */
    int size(int branch) {
        return ends[branch] - first(branch);
    }

    int vertex(int branch, int place) {
        return vertices[first(branch) + place];
    }

    private int first(int branch) {
        return branch == 0 ? 0 : ends[branch - 1];
    }

    /** Collects the branches of one route after another. */
    static final class Builder {
        private final IntArrayList vertices = new IntArrayList();
        private final IntArrayList ends = new IntArrayList();

        void add(int vertex) {
            vertices.add(vertex);
        }

        void endBranch() {
            ends.add(vertices.size());
        }

        /** The branches of a route; what comes next is of another one. */
        Branches build() {
            Branches result = new Branches(vertices.toIntArray(), ends.toIntArray());
            vertices.clear();
            ends.clear();
            return result;
        }
    }
}
