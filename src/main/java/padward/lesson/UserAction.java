package padward.lesson;

import java.util.Optional;
import padward.fabric.Corner;

/** Something that a person does in the window, as a value. */
public sealed interface UserAction {
    /** As an instruction to a person. */
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
     * Looks at a clearance.
     *
     * @param index which one, from 0
     */
    record LookAtOption(int index) implements UserAction {
        @Override
        public String toText() {
            return "choose clearance " + (index + 1);
        }
    }

    /** Tries the answer out. */
    record TryIt() implements UserAction {
        @Override
        public String toText() {
            return "press Try it (or Bring it out)";
        }
    }

    /** Keeps the trial. */
    record Keep() implements UserAction {
        @Override
        public String toText() {
            return "press Keep";
        }
    }

    /** Drops the trial. */
    record Drop() implements UserAction {
        @Override
        public String toText() {
            return "press Drop";
        }
    }

    /** Takes back what was kept last. */
    record Undo() implements UserAction {
        @Override
        public String toText() {
            return "press Undo";
        }
    }

    /** The deed that a lesson's file calls so, for those that need nothing more. */
    static Optional<UserAction> plain(String word) {
        return switch (word) {
            case "try" -> Optional.of(new TryIt());
            case "keep" -> Optional.of(new Keep());
            case "drop" -> Optional.of(new Drop());
            case "undo" -> Optional.of(new Undo());
            default -> Optional.empty();
        };
    }
}
