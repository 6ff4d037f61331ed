package padward.unblock.why;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.List;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.unblock.release.QuestionGraph;
import padward.unblock.release.ReleaseRules;

/**
 * Blocked cuts one behind the other, none sharing an occupant with another. Layer 0 is what leads
 * freely to one end of the question. What stands right before it is the first cut: every route has
 * to remove one of its occupants at least. With all of these taken away, the reach grows to layer
 * 1; what stands before that is the second cut; and so on until the other end is reached. The
 * number of cuts between a vertex and the end is a lower bound on the distinct occupants that must
 * be removed on a route from there.
 */
final class DisjointCuts {
    private static final int MOST_LAYERS = 60;

    /**
     * Growth ends here: what has not been seen lies beyond the last cut, or farther. Most questions
     * are decided by what stands right at their two ends; growing farther took longer than the
     * searches that it made shorter (docs/speed-notes.md, Explaining).
     */
    private static final int MOST_VERTICES = 1_000;

    private final Int2IntOpenHashMap layerOfVertex = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap cutOfOccupant = new Int2IntOpenHashMap();
    private final IntArrayList free = new IntArrayList();
    private int count;
    private boolean met;

    private DisjointCuts() {
        layerOfVertex.defaultReturnValue(Fabric.NOTHING);
        cutOfOccupant.defaultReturnValue(Fabric.NOTHING);
    }

    /** The layers seen from the end that {@code graph} sets out from. O(edges reached). */
    static DisjointCuts of(QuestionGraph graph, ReleaseRules rules, Progress progress) {
        DisjointCuts result = new DisjointCuts();
        result.grow(graph, rules, progress);
        return result;
    }

    private void grow(QuestionGraph graph, ReleaseRules rules, Progress progress) {
        EdgeCursor edges = graph.edges();
        IntArrayList open = new IntArrayList();
        IntArrayList blocked = new IntArrayList();
        for (int source : graph.sources()) {
            if (graph.isFreeSource(source) || isOpen(rules.of(source))) {
                layerOfVertex.put(source, 0);
                open.add(source);
            } else {
                blocked.add(source);
            }
        }
        while (true) {
            while (!open.isEmpty()) {
                if (layerOfVertex.size() > MOST_VERTICES) {
                    return;
                }
                progress.check();
                int vertex = open.popInt();
                if (count == 0) {
                    free.add(vertex);
                }
                if (graph.isGoal(vertex)) {
                    met = true;
                }
                edges.reset(vertex);
                while (edges.next()) {
                    int next = edges.other();
                    if (layerOfVertex.containsKey(next) || graph.isShut(next)) {
                        continue;
                    }
                    if (graph.isFreeSource(next)
                            || graph.isGoalWithoutPrice(next)
                            || isOpen(rules.of(next))) {
                        layerOfVertex.put(next, count);
                        open.add(next);
                    } else {
                        blocked.add(next);
                    }
                }
            }
            if (met || blocked.isEmpty() || count == MOST_LAYERS) {
                return;
            }
            count++;
            cut(blocked, rules);
            for (int vertex : blocked) {
                if (!layerOfVertex.containsKey(vertex) && isOpen(rules.of(vertex))) {
                    layerOfVertex.put(vertex, count);
                    open.add(vertex);
                }
            }
            blocked.clear();
        }
    }

    /**
     * Makes everything that could open a blocked vertex, and is in no cut yet, the next cut. A
     * route meets one of the choices of each need whole, and each choice of a need that is not met
     * has a member that no earlier cut has.
     */
    private void cut(IntArrayList blocked, ReleaseRules rules) {
        for (int vertex : blocked) {
            for (int[][] choices : rules.of(vertex)) {
                for (int[] choice : choices) {
                    for (int occupant : choice) {
                        if (cutOfOccupant.get(occupant) == Fabric.NOTHING) {
                            cutOfOccupant.put(occupant, count);
                        }
                    }
                }
            }
        }
    }

    private boolean isOpen(int[][][] needs) {
        for (int[][] choices : needs) {
            boolean any = false;
            for (int[] choice : choices) {
                any |= isRemoved(choice);
            }
            if (!any) {
                return false;
            }
        }
        return true;
    }

    private boolean isRemoved(int[] choice) {
        for (int occupant : choice) {
            if (cutOfOccupant.get(occupant) == Fabric.NOTHING) {
                return false;
            }
        }
        return true;
    }

    /** Whether the growth ended at the other end or for want of more, and not for its size. */
    boolean isWhole() {
        return layerOfVertex.size() <= MOST_VERTICES;
    }

    /** How many cuts lie between the two ends. */
    int count() {
        return count;
    }

    /** How many cuts lie between a vertex and the end. */
    int layer(int vertex) {
        int layer = layerOfVertex.get(vertex);
        return layer == Fabric.NOTHING ? count : layer;
    }

    /** The cut that an occupant belongs to, counted from 1; {@link Fabric#NOTHING} for none. */
    int cutOf(int occupant) {
        return cutOfOccupant.get(occupant);
    }

    /** The occupants of each cut, the cut nearest to the end first. */
    List<IntSet> cuts() {
        List<IntSet> result = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            result.add(new IntOpenHashSet());
        }
        cutOfOccupant
                .int2IntEntrySet()
                .forEach(e -> result.get(e.getIntValue() - 1).add(e.getIntKey()));
        return result;
    }

    /** How many vertices lead freely to the end. */
    int freeCount() {
        return free.size();
    }

    /** All vertices reached. */
    Int2IntOpenHashMap layers() {
        return layerOfVertex;
    }
}
