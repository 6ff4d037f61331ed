package padward.route.search;

import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.cost.SmallCost;

/** The quick search over any fabric, edge by edge. */
class EdgeRowSearch extends IntSearch {
    private final EdgeCursor edges;

    EdgeRowSearch(Fabric fabric) {
        super(fabric);
        edges = fabric.edgesOut();
    }

    @Override
    void expand(int vertex, int sofar) {
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
