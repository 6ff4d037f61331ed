package padward.route.search;

import java.lang.reflect.Proxy;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/**
 * A small fabric of which one vertex has a number as in a very large one, which differs from that
 * of another only in bit 27. Only its edges can be asked for.
 *
 * @param small the vertex that keeps its number
 * @param large the vertex that gets the large number
 */
record FarNumbers(int small, int large) {
    private static final int FAR = 1 << 27;

    Fabric of(Fabric fabric) {
        return (Fabric)
                Proxy.newProxyInstance(
                        FarNumbers.class.getClassLoader(),
                        new Class<?>[] {Fabric.class},
                        (proxy, method, args) ->
                                switch (method.getName()) {
                                    case "edgesOut" -> new Far(fabric.edgesOut());
                                    case "edgesIn" -> new Far(fabric.edgesIn());
                                    default ->
                                            throw new UnsupportedOperationException(
                                                    method.getName());
                                });
    }

    /** The number that a vertex has there. */
    int far(int vertex) {
        return vertex == large ? small | FAR : vertex;
    }

    private int near(int vertex) {
        return vertex == (small | FAR) ? large : vertex;
    }

    private final class Far implements EdgeCursor {
        private final EdgeCursor edges;

        Far(EdgeCursor edges) {
            this.edges = edges;
        }

        @Override
        public void reset(int vertex) {
            edges.reset(near(vertex));
        }

        @Override
        public boolean next() {
            return edges.next();
        }

        @Override
        public int other() {
            return far(edges.other());
        }

        @Override
        public EdgeKind kind() {
            return edges.kind();
        }

        @Override
        public int delayPs(Corner corner) {
            return edges.delayPs(corner);
        }
    }
}
