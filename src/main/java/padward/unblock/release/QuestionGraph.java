package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.function.IntPredicate;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.search.SearchSources;

/**
 * A question's graph, walked in one direction: from the net's own tree towards the pad, or from the
 * pad back towards the tree. The tree's vertices are passed for nothing; all others, the pad
 * included, have to be free or be removed.
 */
public final class QuestionGraph {
    private static final int VERTICES_BETWEEN_CHECKS = 4096;

    private final Fabric fabric;
    private final QuestionContext context;
    private final IntSet tree = new IntOpenHashSet();
    private final int pad;
    private final boolean forward;
    private int leftmost = Integer.MAX_VALUE;
    private int rightmost = -1;
    private int lowest = Integer.MAX_VALUE;
    private int highest = -1;

    private QuestionGraph(QuestionContext context, SearchSources starts, int pad, boolean forward) {
        this.fabric = context.design().fabric();
        this.context = context;
        this.pad = pad;
        this.forward = forward;
        for (int i = 0; i < starts.size(); i++) {
            tree.add(starts.vertex(i));
        }
        findGoalArea();
    }

    /** From the net towards the pad. */
    public static QuestionGraph towards(QuestionContext context, SearchSources starts, int pad) {
        return new QuestionGraph(context, starts, pad, true);
    }

    /** The same the other way round. */
    public QuestionGraph reversed(SearchSources starts) {
        return new QuestionGraph(context, starts, pad, !forward);
    }

    /** A cursor in the direction of the walk. */
    public EdgeCursor edges() {
        return forward ? fabric.edgesOut() : fabric.edgesIn();
    }

    /** Where the walk begins. */
    public IntSet sources() {
        return forward ? tree : IntSet.of(pad);
    }

    /** Whether a vertex is passed for nothing because the net is there already. */
    public boolean isFreeSource(int vertex) {
        return forward && tree.contains(vertex);
    }

    /** Whether the walk ends at a vertex. */
    public boolean isGoal(int vertex) {
        return forward ? vertex == pad : tree.contains(vertex);
    }

    /** Whether the walk ends at a vertex that need not be opened. */
    public boolean isGoalWithoutPrice(int vertex) {
        return !forward && tree.contains(vertex);
    }

    /** Whether a vertex can never be passed: a route through another pad would drive that too. */
    public boolean isShut(int vertex) {
        boolean otherPad = vertex != pad && fabric.kind(vertex) == VertexKind.PAD;
        return (otherPad || context.isClosed(vertex)) && !tree.contains(vertex);
    }

    /**
     * Whether a step of the walk can never be made, because the net itself or a locked one has
     * another switch of the same group on.
     */
    public boolean isShut(int vertex, int next) {
        return context.isShut(forward ? vertex : next, forward ? next : vertex);
    }

    /** What a step of the walk takes in addition to opening the vertex that it enters. */
    public int[][][] needsOfStep(ReleaseRules rules, int vertex, int next) {
        return forward ? rules.ofSwitch(vertex, next) : rules.ofSwitch(next, vertex);
    }

    /**
     * Whether no walk gets to its end without some vertices. O(edges) at the worst.
     *
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public boolean isCutBy(IntPredicate removed, Progress progress) {
        IntSet seen = new IntOpenHashSet();
        IntArrayList open = new IntArrayList();
        EdgeCursor edges = edges();
        for (int source : sources()) {
            if (!removed.test(source)) {
                seen.add(source);
                open.add(source);
            }
        }
        int untilCheck = VERTICES_BETWEEN_CHECKS;
        while (!open.isEmpty()) {
            if (--untilCheck == 0) {
                untilCheck = VERTICES_BETWEEN_CHECKS;
                progress.check();
            }
            edges.reset(open.popInt());
            while (edges.next()) {
                int next = edges.other();
                if (isGoal(next)) {
                    return false;
                }
                if (!isShut(next) && !seen.contains(next) && !removed.test(next)) {
                    seen.add(next);
                    open.add(next);
                }
            }
        }
        return true;
    }

    /**
     * Tiles between a vertex and where the walk ends, by rows and columns; for a tree, to the
     * smallest rectangle around it. Serves to go straight for the end, not as a bound.
     */
    public int tilesToGoal(int vertex) {
        int tile = fabric.tile(vertex);
        int x = fabric.column(tile);
        int y = fabric.row(tile);
        return beyond(x, leftmost, rightmost) + beyond(y, lowest, highest);
    }

    private static int beyond(int at, int from, int to) {
        return Math.max(0, Math.max(from - at, at - to));
    }

    private void findGoalArea() {
        for (int vertex : forward ? IntSet.of(pad) : tree) {
            int tile = fabric.tile(vertex);
            leftmost = Math.min(leftmost, fabric.column(tile));
            rightmost = Math.max(rightmost, fabric.column(tile));
            lowest = Math.min(lowest, fabric.row(tile));
            highest = Math.max(highest, fabric.row(tile));
        }
    }
}
