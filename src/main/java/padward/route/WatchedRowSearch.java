package padward.route;

import padward.fabric.Fabric;

/** {@link RowSearch} itself, watched. */
final class WatchedRowSearch extends RowSearch {
    private final Watch watch;

    WatchedRowSearch(Fabric fabric, SearchWatcher watcher) {
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
