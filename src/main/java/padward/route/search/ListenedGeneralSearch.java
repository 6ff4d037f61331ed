package padward.route.search;

import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.route.cost.CostModel;

/** {@link GeneralSearch} itself, watched. */
final class ListenedGeneralSearch extends GeneralSearch {
    private final ListenedCosts watch;

    ListenedGeneralSearch(Fabric fabric, SearchListener watcher) {
        super(fabric);
        watch = new ListenedCosts(fabric, watcher, this::cost);
    }

    @Override
    void relax(int vertex, Corner corner, CostModel model, LowerBound bound) {
        watch.beforeEdges(
                vertex,
                (from, to, edge) -> model.cost(from, to, edge.delayPs(corner)) == CostModel.CLOSED);
        super.relax(vertex, corner, model, bound);
        watch.afterEdges(vertex, bound::at);
    }
}
