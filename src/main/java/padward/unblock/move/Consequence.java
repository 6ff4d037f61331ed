package padward.unblock.move;

import java.util.List;
import padward.change.Edit;
import padward.unblock.release.LostEndpoint;

/** What it means to remove an obstacle: exactly one of three. */
public sealed interface Consequence {
    /** All that it feeds ends in the port that loses its pad: nothing is lost. */
    record Removable() implements Consequence {}

    /**
     * It can make room and still do its work.
     *
     * @param means how
     * @param delayChanges what happens to the nets that are moved
     * @param edits the edits that do it
     */
    record Movable(Means means, List<DelayChange> delayChanges, List<Edit> edits)
            implements Consequence {
        /** Copies the lists. */
        public Movable {
            delayChanges = List.copyOf(delayChanges);
            edits = List.copyOf(edits);
        }
    }

    /**
     * It cannot: these endpoints lose their signal.
     *
     * @param lost the endpoints
     */
    record LosesFunction(List<LostEndpoint> lost) implements Consequence {
        /** Copies the list. */
        public LosesFunction {
            lost = List.copyOf(lost);
        }
    }

    /** How something makes room. */
    enum Means {
        /** The blocking part of the net is rerouted over other wires. */
        REROUTE,
        /** The cell lets the signal through its site. */
        PASS_THROUGH,
        /** The cell goes to another free site of its kind. */
        RELOCATE
    }
}
