package padward.lesson;

import java.util.List;
import java.util.Optional;
import padward.fabric.delay.Corner;
import padward.watch.request.CircuitRequest;
import padward.watch.request.CircuitSort;

/** Something that a user does in the window, as a value. */
public sealed interface UserAction {
    /** As an instruction to the user. */
    String toText();

    /**
     * Asks a question.
     *
     * @param net the net
     * @param pad the pad, by any of its names
     * @param corner the corner
     */
    record Ask(String net, String pad, Corner corner) implements UserAction {
        @Override
        public String toText() {
            return "ask for net "
                    + net
                    + " on pad "
                    + pad
                    + (corner == Corner.SLOW ? "" : " at the fast corner");
        }
    }

    /**
     * Chooses the hop at a vertex.
     *
     * @param vertex the vertex's full name
     */
    record ChooseHop(String vertex) implements UserAction {
        @Override
        public String toText() {
            return "choose the hop " + vertex + " on the strip map";
        }
    }

    /**
     * Chooses one of the options to unblock a pad.
     *
     * @param index which one, from 0
     */
    record ChooseOption(int index) implements UserAction {
        @Override
        public String toText() {
            return "choose option " + (index + 1) + " of those that unblock the pad";
        }
    }

    /** Tries the answer as a what-if. */
    record TryIt() implements UserAction {
        @Override
        public String toText() {
            return "press Try it (or Bring it out)";
        }
    }

    /** Keeps the what-if. */
    record Keep() implements UserAction {
        @Override
        public String toText() {
            return "press Keep";
        }
    }

    /** Drops the what-if. */
    record Drop() implements UserAction {
        @Override
        public String toText() {
            return "press Drop";
        }
    }

    /**
     * Asks for a watch circuit, and keeps it.
     *
     * @param circuit its sort
     * @param when its condition
     * @param pad the pad, by any of its names
     * @param registered whether a register stands before the pad
     */
    record Watch(CircuitSort circuit, String when, String pad, boolean registered)
            implements UserAction {
        /** The circuit as the panel states it. */
        public CircuitRequest request() {
            return new CircuitRequest(
                    circuit,
                    List.of(),
                    Optional.of(when),
                    Optional.empty(),
                    List.of(),
                    Optional.empty(),
                    Optional.empty(),
                    registered);
        }

        @Override
        public String toText() {
            return "in the panel Watch choose "
                    + circuit.label()
                    + ", type “"
                    + when
                    + "” under When and "
                    + pad
                    + " under Pad"
                    + (registered ? "" : ", without a register before the pad")
                    + ", press Ask and then Keep";
        }
    }

    /** Undoes the last kept change. */
    record Undo() implements UserAction {
        @Override
        public String toText() {
            return "press Undo";
        }
    }
}
