package padward.route.search;

import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.cost.SmallCost;

/** The fast search over any fabric, edge by edge. */
final class EdgeRowSearch extends IntSearch {
    private final EdgeCursor edges;

    EdgeRowSearch(Fabric fabric, SearchListener listener) {
        super(fabric, listener, NEVER);
        edges = fabric.edgesOut();
    }

    @Override
    void expand(int vertex) {
        int sofar = state.cost[vertex];
        edges.reset(vertex);
        while (edges.next()) {
            int to = edges.other();
            if (state.isDone(to)) {
                continue;
            }
            int step = costs.step(vertex, to, edges.delayPs(corner));
            if (step != SmallCost.CLOSED && sofar + step < state.cost[to]) {
                improve(to, sofar + step, ahead(to));
            }
        }
    }
}
