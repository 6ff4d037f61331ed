package padward.bench;

import java.util.AbstractSet;
import java.util.Arrays;
import java.util.Iterator;
import java.util.Set;
import org.jgrapht.Graph;
import org.jgrapht.GraphIterables;
import padward.route.jgrapht.ReadOnlyGraph;

/** JGraphT's view of plain arrays, as lean as its interface allows: an edge is its index. */
final class ArrayGraph extends ReadOnlyGraph<Integer> {
    private final int[] start;
    private final int[] target;
    private final int[] weight;
    private final int[] source;

    /** For incoming edges, made when first asked for. */
    private int[] inStart = new int[0];

    private int[] inEdge = new int[0];

    ArrayGraph(Terrain terrain) {
        start = terrain.start;
        target = terrain.target;
        weight = terrain.weight;
        source = new int[target.length];
        for (int v = 0; v + 1 < start.length; v++) {
            Arrays.fill(source, start[v], start[v + 1], v);
        }
    }

    @Override
    public Set<Integer> outgoingEdgesOf(Integer vertex) {
        return range(start[vertex], start[vertex + 1]);
    }

    private static Set<Integer> range(int from, int to) {
        return new AbstractSet<>() {
            @Override
            public Iterator<Integer> iterator() {
                return new Iterator<>() {
                    private int next = from;

                    @Override
                    public boolean hasNext() {
                        return next < to;
                    }

                    @Override
                    public Integer next() {
                        return next++;
                    }
                };
            }

            @Override
            public int size() {
                return to - from;
            }
        };
    }

    @Override
    public GraphIterables<Integer, Integer> iterables() {
        return new GraphIterables<>() {
            @Override
            public Graph<Integer, Integer> getGraph() {
                return ArrayGraph.this;
            }

            @Override
            public Iterable<Integer> outgoingEdgesOf(Integer vertex) {
                return ArrayGraph.this.outgoingEdgesOf(vertex);
            }
        };
    }

    @Override
    public Set<Integer> vertexSet() {
        return range(0, start.length - 1);
    }

    @Override
    public Set<Integer> edgeSet() {
        return range(0, target.length);
    }

    @Override
    public boolean containsVertex(Integer vertex) {
        return vertex >= 0 && vertex < start.length - 1;
    }

    @Override
    public boolean containsEdge(Integer edge) {
        return edge >= 0 && edge < target.length;
    }

    @Override
    public Integer getEdgeSource(Integer edge) {
        return source[edge];
    }

    @Override
    public Integer getEdgeTarget(Integer edge) {
        return target[edge];
    }

    @Override
    public double getEdgeWeight(Integer edge) {
        return weight[edge];
    }

    @Override
    public int outDegreeOf(Integer vertex) {
        return start[vertex + 1] - start[vertex];
    }

    private static UnsupportedOperationException unused() {
        return new UnsupportedOperationException("not needed by the searches that are measured");
    }

    @Override
    public Set<Integer> incomingEdgesOf(Integer vertex) {
        if (inStart.length == 0) {
            sortByTarget();
        }
        int from = inStart[vertex];
        int to = inStart[vertex + 1];
        return new AbstractSet<>() {
            @Override
            public Iterator<Integer> iterator() {
                return Arrays.stream(inEdge, from, to).iterator();
            }

            @Override
            public int size() {
                return to - from;
            }
        };
    }

    private void sortByTarget() {
        int[] begin = new int[start.length];
        for (int to : target) {
            begin[to + 1]++;
        }
        for (int v = 1; v < begin.length; v++) {
            begin[v] += begin[v - 1];
        }
        inEdge = new int[target.length];
        int[] next = begin.clone();
        for (int e = 0; e < target.length; e++) {
            inEdge[next[target[e]]++] = e;
        }
        inStart = begin;
    }

    @Override
    public Set<Integer> edgesOf(Integer vertex) {
        throw unused();
    }

    @Override
    public Set<Integer> getAllEdges(Integer from, Integer to) {
        throw unused();
    }

    @Override
    public Integer getEdge(Integer from, Integer to) {
        throw unused();
    }

    @Override
    public int degreeOf(Integer vertex) {
        throw unused();
    }

    @Override
    public int inDegreeOf(Integer vertex) {
        throw unused();
    }
}
