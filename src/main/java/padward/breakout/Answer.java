package padward.breakout;

import java.util.List;
import java.util.Optional;

/** The answer to a {@link Question}: exactly one of three. */
public sealed interface Answer {
    /** The question answered. */
    Question question();

    /**
     * What is let go to give up the pad; empty when no port is on it, or none can simply be let go.
     */
    Optional<LetGo> letGo();

    /** Cautions to be read before anything is driven, the gravest first. */
    List<String> cautions();

    /**
     * A way exists now.
     *
     * @param way the quickest at the question's corner
     */
    record Open(Question question, Way way, Optional<LetGo> letGo, List<String> cautions)
            implements Answer {
        /** Copies the cautions. */
        public Open {
            cautions = List.copyOf(cautions);
        }
    }

    /**
     * A way exists once the obstacles are freed.
     *
     * @param way the way with the fewest changes of occupant along it, then the quickest
     * @param obstacles what stands on it, in the order of the way
     */
    record Blocked(
            Question question,
            Way way,
            List<Obstacle> obstacles,
            Optional<LetGo> letGo,
            List<String> cautions)
            implements Answer {
        /** Copies the lists. */
        public Blocked {
            obstacles = List.copyOf(obstacles);
            cautions = List.copyOf(cautions);
        }
    }

    /**
     * There is no way, not even on an empty fabric.
     *
     * @param reason why
     */
    record NoWay(
            Question question, NoWayReason reason, Optional<LetGo> letGo, List<String> cautions)
            implements Answer {
        /** Copies the cautions. */
        public NoWay {
            cautions = List.copyOf(cautions);
        }
    }
}
