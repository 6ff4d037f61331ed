package padward.unblock.why;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntLinkedOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.Optional;
import java.util.Set;
import org.jgrapht.alg.flow.PushRelabelMFImpl;
import org.jgrapht.graph.DefaultWeightedEdge;
import org.jgrapht.graph.SimpleDirectedWeightedGraph;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.route.search.SearchSources;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.QuestionGraph;
import padward.unblock.release.ReleaseRules;

/**
 * The narrowest place before the pad: the fewest used vertices such that every route passes one of
 * them, so that one of them at least has to be removed. A minimum vertex cut, found by JGraphT's
 * maximum flow (Goldberg and Tarjan's push-relabel) after splitting each used vertex into an edge
 * of capacity 1; free vertices have no limit. What lies beyond the first cut of {@link
 * DisjointCuts} as seen from the pad counts as the source, so the cut is the narrowest within the
 * pad's surroundings; a cut elsewhere may be narrower still where more than one occupant has to go.
 */
public final class MinimumVertexCut {
    private static final double NO_LIMIT = 1e6;
    private static final int SOURCE = -1;
    private static final int SINK = -2;

    private MinimumVertexCut() {}

    /**
     * The used vertices of the narrowest cut, in no order; empty when the pad's surroundings are
     * too large to look at, or nothing used stands before it.
     */
    public static Optional<IntList> of(
            QuestionContext context,
            ReleaseRules rules,
            SearchSources starts,
            int pad,
            Progress progress) {
        QuestionGraph back = QuestionGraph.towards(context, starts, pad).reversed(starts);
        DisjointCuts seen = DisjointCuts.of(back, rules, progress);
        if (!seen.isWhole()) {
            return Optional.empty();
        }
        Int2IntOpenHashMap layers = seen.layers();
        var graph =
                new SimpleDirectedWeightedGraph<Integer, DefaultWeightedEdge>(
                        DefaultWeightedEdge.class);
        graph.addVertex(SOURCE);
        graph.addVertex(SINK);
        EdgeCursor into = back.edges();
        for (int vertex : layers.keySet()) {
            // Only what lies between where a vertex is entered and where it is left can be cut.
            double capacity = rules.of(vertex).length > 0 ? 1 : NO_LIMIT;
            if (back.isGoalWithoutPrice(vertex)) {
                capacity = NO_LIMIT;
                connect(graph, SOURCE, in(vertex), NO_LIMIT);
            }
            connect(graph, in(vertex), out(vertex), capacity);
            into.reset(vertex);
            while (into.next()) {
                int before = into.other();
                boolean inside = layers.containsKey(before);
                if (inside || !back.isShut(before)) {
                    connect(graph, inside ? out(before) : SOURCE, in(vertex), NO_LIMIT);
                }
            }
        }
        connect(graph, out(pad), SINK, NO_LIMIT);
        var flow = new PushRelabelMFImpl<>(graph);
        if (flow.calculateMinCut(SOURCE, SINK) >= NO_LIMIT) {
            return Optional.empty();
        }
        Set<Integer> side = flow.getSourcePartition();
        IntList result = new IntArrayList();
        for (int vertex : layers.keySet()) {
            if (side.contains(in(vertex)) && !side.contains(out(vertex))) {
                result.add(vertex);
            }
        }
        return result.isEmpty() ? Optional.empty() : Optional.of(result);
    }

    private static int in(int vertex) {
        return 2 * vertex;
    }

    private static int out(int vertex) {
        return 2 * vertex + 1;
    }

    private static void connect(
            SimpleDirectedWeightedGraph<Integer, DefaultWeightedEdge> graph,
            int from,
            int to,
            double capacity) {
        graph.addVertex(from);
        graph.addVertex(to);
        DefaultWeightedEdge edge = graph.addEdge(from, to);
        if (edge != null) {
            graph.setEdgeWeight(edge, capacity);
        }
    }

    /** The occupants that stand at the vertices of a cut, each once. */
    public static IntSet occupants(IntList cut, QuestionContext context) {
        IntSet result = new IntLinkedOpenHashSet();
        for (int vertex : cut) {
            result.add(context.obstacleAt(vertex));
        }
        return result;
    }
}
