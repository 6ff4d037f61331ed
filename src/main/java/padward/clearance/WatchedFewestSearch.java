package padward.clearance;

import padward.fabric.EdgeCursor;

/** {@link FewestSearch} itself, watched. */
final class WatchedFewestSearch extends FewestSearch {
    private final LabelWatcher watcher;

    WatchedFewestSearch(Passage passage, Openers openers, CutLayers ahead, LabelWatcher watcher) {
        super(passage, openers, ahead);
        this.watcher = watcher;
    }

    @Override
    void expand(int label, EdgeCursor edges) {
        int vertex = vertexOf.getInt(label);
        int[] occupants = sets.members(setOf.getInt(label));
        int before = found.size();
        watcher.taken(vertex, occupants);
        super.expand(label, edges);
        if (found.size() > before) {
            watcher.arrived(vertex, occupants);
        }
    }

    @Override
    void add(int vertex, int set) {
        int before = vertexOf.size();
        super.add(vertex, set);
        if (vertexOf.size() > before) {
            watcher.made(vertex, sets.members(set));
        } else {
            watcher.dropped(vertex, sets.members(set));
        }
    }
}
