package padward.route.search;

import padward.fabric.pattern.PatternFabric;

/** {@link BitParallelSearch} itself, watched. */
final class ListenedBitParallelSearch extends BitParallelSearch {
    private final ListenedCosts watch;

    ListenedBitParallelSearch(PatternFabric fabric, SearchListener watcher) {
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
