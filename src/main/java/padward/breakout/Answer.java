package padward.breakout;

import java.util.List;
import java.util.Optional;
import padward.clearance.Chokepoint;
import padward.clearance.LetGo;

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

    /** The way, of an answer that has one: open now, or once the obstacles are freed. */
    default Optional<Way> findWay() {
        return Optional.empty();
    }

    /**
     * A way exists now.
     *
     * @param way the quickest at the question's corner
     * @param chokepoints what every free way passes, in the order of the way; only in an explained
     *     answer
     */
    record Open(
            Question question,
            Way way,
            List<Chokepoint> chokepoints,
            Optional<LetGo> letGo,
            List<String> cautions)
            implements Answer {
        /** Copies the lists. */
        public Open {
            chokepoints = List.copyOf(chokepoints);
            cautions = List.copyOf(cautions);
        }

        @Override
        public Optional<Way> findWay() {
            return Optional.of(way);
        }
    }

    /**
     * A way exists once the obstacles are freed.
     *
     * @param way the best way known: of the explanation's first clearance, if there is one, else
     *     the way with the fewest changes of occupant along it, then the quickest
     * @param obstacles what stands on it, in the order of the way; last, what has the pad's enable
     * @param why what is proven about it; empty for a quick answer
     */
    record Blocked(
            Question question,
            Way way,
            List<Obstacle> obstacles,
            Optional<LetGo> letGo,
            List<String> cautions,
            Optional<WhyBlocked> why)
            implements Answer {
        /** Copies the lists. */
        public Blocked {
            obstacles = List.copyOf(obstacles);
            cautions = List.copyOf(cautions);
        }

        @Override
        public Optional<Way> findWay() {
            return Optional.of(way);
        }
    }

    /**
     * There is no way, not even on an empty fabric.
     *
     * @param reason why
     * @param detail where the net's signal gets instead, as a sentence; may be empty
     * @param nearby signals near the net that do have a way; only in an explained answer
     */
    record NoWay(
            Question question,
            NoWayReason reason,
            String detail,
            List<NearbySignal> nearby,
            Optional<LetGo> letGo,
            List<String> cautions)
            implements Answer {
        /** Copies the lists. */
        public NoWay {
            nearby = List.copyOf(nearby);
            cautions = List.copyOf(cautions);
        }
    }
}
