package padward.route.jgrapht;

import java.util.AbstractSet;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.NoSuchElementException;
import java.util.Set;
import java.util.stream.IntStream;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.search.SearchSources;

/**
 * A fabric, with the costs of one question, as a read-only JGraphT graph, so that every JGraphT
 * algorithm runs on it. One vertex is added behind the last, {@link #origin()}: it leads to each
 * start at the start's cost, which makes a search from several starts one from a single vertex.
 *
 * <p>Edge sets are made on demand. Not safe for several threads.
 */
public class FabricGraph extends ReadOnlyGraph<FabricEdge> {
    private final Fabric fabric;
    private final Corner corner;
    private final CostModel model;
    private final SearchSources starts;
    private final EdgeCursor out;
    private final EdgeCursor in;
    private final int origin;

    /**
     * @param fabric the fabric
     * @param corner corner whose delays count
     * @param model what edges cost; closed edges are not in the graph
     * @param starts where a search may begin
     */
    public FabricGraph(Fabric fabric, Corner corner, CostModel model, SearchSources starts) {
        this.fabric = fabric;
        this.corner = corner;
        this.model = model;
        this.starts = starts;
        this.out = fabric.edgesOut();
        this.in = fabric.edgesIn();
        this.origin = fabric.vertexCount();
    }

    /** The added vertex that leads to the starts. */
    public int origin() {
        return origin;
    }

    private long startCost(int vertex) {
        for (int i = 0; i < starts.size(); i++) {
            if (starts.vertex(i) == vertex) {
                return starts.cost(i);
            }
        }
        return CostModel.CLOSED;
    }

    private long cost(int from, int to) {
        if (from == origin) {
            return startCost(to);
        }
        if (to == origin) {
            return CostModel.CLOSED;
        }
        out.reset(from);
        while (out.next()) {
            if (out.other() == to) {
                return model.cost(from, to, out.delayPs(corner));
            }
        }
        return CostModel.CLOSED;
    }

    @Override
    public Set<FabricEdge> outgoingEdgesOf(Integer vertex) {
        Set<FabricEdge> result = new LinkedHashSet<>();
        if (vertex == origin) {
            for (int i = 0; i < starts.size(); i++) {
                result.add(new FabricEdge(origin, starts.vertex(i)));
            }
            return result;
        }
        out.reset(vertex);
        while (out.next()) {
            if (model.cost(vertex, out.other(), out.delayPs(corner)) != CostModel.CLOSED) {
                result.add(new FabricEdge(vertex, out.other()));
            }
        }
        return result;
    }

    @Override
    public Set<FabricEdge> incomingEdgesOf(Integer vertex) {
        Set<FabricEdge> result = new LinkedHashSet<>();
        if (vertex == origin) {
            return result;
        }
        in.reset(vertex);
        while (in.next()) {
            if (model.cost(in.other(), vertex, in.delayPs(corner)) != CostModel.CLOSED) {
                result.add(new FabricEdge(in.other(), vertex));
            }
        }
        if (startCost(vertex) != CostModel.CLOSED) {
            result.add(new FabricEdge(origin, vertex));
        }
        return result;
    }

    @Override
    public Set<FabricEdge> edgesOf(Integer vertex) {
        Set<FabricEdge> result = new LinkedHashSet<>(incomingEdgesOf(vertex));
        result.addAll(outgoingEdgesOf(vertex));
        return result;
    }

    @Override
    public FabricEdge getEdge(Integer from, Integer to) {
        return containsVertex(from) && containsVertex(to) && cost(from, to) != CostModel.CLOSED
                ? new FabricEdge(from, to)
                : null;
    }

    @Override
    public Set<FabricEdge> getAllEdges(Integer from, Integer to) {
        if (!containsVertex(from) || !containsVertex(to)) {
            return null;
        }
        FabricEdge edge = getEdge(from, to);
        return edge == null ? Set.of() : Set.of(edge);
    }

    @Override
    public boolean containsEdge(FabricEdge edge) {
        return edge != null && getEdge(edge.from(), edge.to()) != null;
    }

    @Override
    public boolean containsVertex(Integer vertex) {
        return vertex != null && vertex >= 0 && vertex <= origin;
    }

    @Override
    public Set<Integer> vertexSet() {
        return new AbstractSet<>() {
            @Override
            public Iterator<Integer> iterator() {
                return IntStream.rangeClosed(0, origin).iterator();
            }

            @Override
            public int size() {
                return origin + 1;
            }

            @Override
            public boolean contains(Object vertex) {
                return vertex instanceof Integer number && containsVertex(number);
            }
        };
    }

    @Override
    public Set<FabricEdge> edgeSet() {
        return new AbstractSet<>() {
            @Override
            public Iterator<FabricEdge> iterator() {
                return new EdgeIterator();
            }

            @Override
            public int size() {
                int count = 0;
                for (int v = 0; v <= origin; v++) {
                    count += outDegreeOf(v);
                }
                return count;
            }

            @Override
            public boolean contains(Object edge) {
                return edge instanceof FabricEdge fabricEdge && containsEdge(fabricEdge);
            }
        };
    }

    private final class EdgeIterator implements Iterator<FabricEdge> {
        private int vertex = -1;
        private Iterator<FabricEdge> row = Set.<FabricEdge>of().iterator();

        @Override
        public boolean hasNext() {
            while (!row.hasNext() && vertex < origin) {
                row = outgoingEdgesOf(++vertex).iterator();
            }
            return row.hasNext();
        }

        @Override
        public FabricEdge next() {
            if (!hasNext()) {
                throw new NoSuchElementException();
            }
            return row.next();
        }
    }

    @Override
    public int degreeOf(Integer vertex) {
        return inDegreeOf(vertex) + outDegreeOf(vertex);
    }

    @Override
    public int inDegreeOf(Integer vertex) {
        return incomingEdgesOf(vertex).size();
    }

    @Override
    public int outDegreeOf(Integer vertex) {
        return outgoingEdgesOf(vertex).size();
    }

    @Override
    public Integer getEdgeSource(FabricEdge edge) {
        return edge.from();
    }

    @Override
    public Integer getEdgeTarget(FabricEdge edge) {
        return edge.to();
    }

    @Override
    public double getEdgeWeight(FabricEdge edge) {
        return cost(edge.from(), edge.to());
    }
}
