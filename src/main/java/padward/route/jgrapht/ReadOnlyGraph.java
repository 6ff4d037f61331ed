package padward.route.jgrapht;

import java.util.function.Supplier;
import org.jgrapht.GraphType;
import org.jgrapht.graph.AbstractGraph;
import org.jgrapht.graph.DefaultGraphType;

/**
 * A directed, weighted JGraphT graph over vertex numbers that cannot be changed: all calls that
 * would change it fail.
 *
 * @param <E> what stands for an edge
 */
public abstract class ReadOnlyGraph<E> extends AbstractGraph<Integer, E> {
    @Override
    public GraphType getType() {
        return new DefaultGraphType.Builder()
                .directed()
                .weighted(true)
                .allowMultipleEdges(false)
                .allowSelfLoops(false)
                .modifiable(false)
                .build();
    }

    @Override
    public Supplier<Integer> getVertexSupplier() {
        return null;
    }

    @Override
    public Supplier<E> getEdgeSupplier() {
        return null;
    }

    private static UnsupportedOperationException readOnly() {
        return new UnsupportedOperationException("this graph cannot be changed");
    }

    @Override
    public E addEdge(Integer from, Integer to) {
        throw readOnly();
    }

    @Override
    public boolean addEdge(Integer from, Integer to, E edge) {
        throw readOnly();
    }

    @Override
    public Integer addVertex() {
        throw readOnly();
    }

    @Override
    public boolean addVertex(Integer vertex) {
        throw readOnly();
    }

    @Override
    public E removeEdge(Integer from, Integer to) {
        throw readOnly();
    }

    @Override
    public boolean removeEdge(E edge) {
        throw readOnly();
    }

    @Override
    public boolean removeVertex(Integer vertex) {
        throw readOnly();
    }

    @Override
    public void setEdgeWeight(E edge, double weight) {
        throw readOnly();
    }
}
