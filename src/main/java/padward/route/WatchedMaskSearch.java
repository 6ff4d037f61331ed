package padward.route;

import padward.fabric.PatternFabric;

/** {@link MaskSearch} itself, watched. */
final class WatchedMaskSearch extends MaskSearch {
    private final Watch watch;

    WatchedMaskSearch(PatternFabric fabric, SearchWatcher watcher) {
        super(fabric);
        watch = new Watch(fabric, watcher, this::cost);
    }

    @Override
    void expand(int vertex, int sofar) {
        watch.beforeEdges(vertex, (from, to, edge) -> costs.closed.get(to));
        super.expand(vertex, sofar);
        watch.afterEdges(vertex, to -> costs.wide(ahead(to)));
    }
}
