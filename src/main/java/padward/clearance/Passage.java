package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.Starts;

/**
 * A question's graph, walked in one direction: from the net's own tree towards the pad, or from the
 * pad back towards the tree. The tree's vertices are passed for nothing; all others, the pad
 * included, have to be free or freed.
 */
final class Passage {
    private final Fabric fabric;
    private final Situation situation;
    private final IntSet tree = new IntOpenHashSet();
    private final int pad;
    private final boolean forward;

    private Passage(Situation situation, Starts starts, int pad, boolean forward) {
        this.fabric = situation.design().fabric();
        this.situation = situation;
        this.pad = pad;
        this.forward = forward;
        for (int i = 0; i < starts.size(); i++) {
            tree.add(starts.vertex(i));
        }
    }

    /** From the net towards the pad. */
    static Passage towards(Situation situation, Starts starts, int pad) {
        return new Passage(situation, starts, pad, true);
    }

    /** The same the other way round. */
    Passage reversed(Starts starts) {
        return new Passage(situation, starts, pad, !forward);
    }

    /** A cursor in the direction of the walk. */
    EdgeCursor edges() {
        return forward ? fabric.edgesOut() : fabric.edgesIn();
    }

    /** Where the walk begins. */
    IntSet sources() {
        return forward ? tree : IntSet.of(pad);
    }

    /** Whether a vertex is passed for nothing because the net is there already. */
    boolean isFreeSource(int vertex) {
        return forward && tree.contains(vertex);
    }

    /** Whether the walk ends at a vertex. */
    boolean isGoal(int vertex) {
        return forward ? vertex == pad : tree.contains(vertex);
    }

    /** Whether the walk ends at a vertex that need not be freed. */
    boolean isGoalWithoutPrice(int vertex) {
        return !forward && tree.contains(vertex);
    }

    /** Whether a vertex can never be passed. */
    boolean isShut(int vertex) {
        return situation.isClosed(vertex) && !tree.contains(vertex);
    }
}
