package padward.route;

import padward.fabric.Corner;
import padward.fabric.Fabric;

/** {@link GeneralSearch} itself, watched. */
final class WatchedGeneralSearch extends GeneralSearch {
    private final Watch watch;

    WatchedGeneralSearch(Fabric fabric, SearchWatcher watcher) {
        super(fabric);
        watch = new Watch(fabric, watcher, this::cost);
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
