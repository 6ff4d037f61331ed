package padward.clearance;

import java.util.List;
import padward.design.Edit;

/** What it means to free an obstacle: exactly one of three. */
public sealed interface Consequence {
    /** Everything that it feeds ends in the port being given up: nothing is lost. */
    record Spare() implements Consequence {}

    /**
     * It can make room and still do its work.
     *
     * @param means how
     * @param shifts what happens to the nets that are moved
     * @param edits the edits that do it
     */
    record Movable(Means means, List<Shift> shifts, List<Edit> edits) implements Consequence {
        /** Copies the lists. */
        public Movable {
            shifts = List.copyOf(shifts);
            edits = List.copyOf(edits);
        }
    }

    /**
     * It cannot: these endpoints lose their signal.
     *
     * @param lost the endpoints
     */
    record Costly(List<Endpoint> lost) implements Consequence {
        /** Copies the list. */
        public Costly {
            lost = List.copyOf(lost);
        }
    }

    /** How something makes room. */
    enum Means {
        /** The blocking part of the net is laid over other wires. */
        OTHER_WIRES,
        /** The cell lets the signal through its site. */
        LET_THROUGH,
        /** The cell goes to another free site of its kind. */
        OTHER_SITE
    }
}
