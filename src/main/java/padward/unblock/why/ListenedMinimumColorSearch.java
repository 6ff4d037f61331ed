package padward.unblock.why;

import padward.fabric.EdgeCursor;
import padward.unblock.release.QuestionGraph;
import padward.unblock.release.ReleaseRules;

/** {@link MinimumColorSearch} itself, watched. */
final class ListenedMinimumColorSearch extends MinimumColorSearch {
    private final LabelListener watcher;

    ListenedMinimumColorSearch(
            QuestionGraph graph, ReleaseRules rules, DisjointCuts ahead, LabelListener watcher) {
        super(graph, rules, ahead);
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
