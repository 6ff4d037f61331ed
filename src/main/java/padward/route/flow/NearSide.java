package padward.route.flow;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import it.unimi.dsi.fastutil.ints.IntLists;
import java.util.BitSet;
import java.util.function.IntConsumer;

/**
 * What lies on the nets' side of a {@link FlowCut}: all that the nets that are not served can get
 * to by pushing routes aside, and what they meet there. It is found with the cut, and tells whoever
 * asks what is beyond it where to begin. Immutable.
 */
public final class NearSide {
    private final BitSet left;
    private final BitSet entered;
    private final IntList beside;

    /**
     * Takes the sets over.
     *
     * @param beside ascending
     */
    NearSide(BitSet left, BitSet entered, IntArrayList beside) {
        this.left = left;
        this.entered = entered;
        this.beside = IntLists.unmodifiable(beside);
    }

    /** Calls for each vertex from which a route of theirs could go on; ascending. */
    void forEachLeft(IntConsumer action) {
        left.stream().forEach(action);
    }

    /**
     * Calls for each vertex on a route that another route could get to, so that this one would have
     * to be taken back from there; those of the cut are among them. Ascending.
     */
    void forEachEntered(IntConsumer action) {
        entered.stream().forEach(action);
    }

    /**
     * The closed vertices to which an edge leads from one where a route of theirs could go on, and
     * the nets' own; ascending.
     */
    public IntList beside() {
        return beside;
    }
}
