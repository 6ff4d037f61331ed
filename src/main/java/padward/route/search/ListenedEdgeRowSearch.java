package padward.route.search;

import padward.fabric.Fabric;

/** {@link EdgeRowSearch} itself, watched. */
final class ListenedEdgeRowSearch extends EdgeRowSearch {
    private final ListenedCosts watch;

    ListenedEdgeRowSearch(Fabric fabric, SearchListener watcher) {
        super(fabric);
        watch = new ListenedCosts(fabric, watcher, this::cost);
    }

    @Override
    void expand(int vertex, int sofar) {
        watch.beforeEdges(vertex, (from, to, edge) -> costs.closed().get(to));
        super.expand(vertex, sofar);
        watch.afterEdges(vertex, to -> costs.wide(ahead(to)));
    }
}
