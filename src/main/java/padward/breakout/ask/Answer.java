package padward.breakout.ask;

import java.util.List;
import java.util.Optional;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.why.Chokepoint;

/** The answer to a {@link Question}: exactly one of three. */
public sealed interface Answer {
    /** The question answered. */
    Question question();

    /**
     * What is let go to give up the pad; empty when no port is on it, or none can simply be let go.
     */
    Optional<DisconnectedBranch> disconnected();

    /** Cautions to be read before anything is driven, the gravest first. */
    List<String> cautions();

    /** The way, of an answer that has one: open now, or once the obstacles are freed. */
    default Optional<Route> findRoute() {
        return Optional.empty();
    }

    /**
     * A way exists now.
     *
     * @param route the quickest at the question's corner
     * @param chokepoints what every free way passes, in the order of the way; only in an explained
     *     answer
     */
    record Open(
            Question question,
            Route route,
            List<Chokepoint> chokepoints,
            Optional<DisconnectedBranch> disconnected,
            List<String> cautions)
            implements Answer {
        /** Copies the lists. */
        public Open {
            chokepoints = List.copyOf(chokepoints);
            cautions = List.copyOf(cautions);
        }

        @Override
        public Optional<Route> findRoute() {
            return Optional.of(route);
        }
    }

    /**
     * A way exists once the obstacles are freed.
     *
     * @param route the best way known: of the explanation's first clearance, if there is one, else
     *     the way with the fewest changes of occupant along it, then the quickest
     * @param obstacles what stands on it, in the order of the way; last, what has the pad's enable
     * @param why what is proven about it; empty for a quick answer
     */
    record Blocked(
            Question question,
            Route route,
            List<Obstacle> obstacles,
            Optional<DisconnectedBranch> disconnected,
            List<String> cautions,
            Optional<WhyBlocked> why)
            implements Answer {
        /** Copies the lists. */
        public Blocked {
            obstacles = List.copyOf(obstacles);
            cautions = List.copyOf(cautions);
        }

        @Override
        public Optional<Route> findRoute() {
            return Optional.of(route);
        }
    }

    /**
     * There is no way, not even on an empty fabric.
     *
     * @param reason why
     * @param detail where the net's signal gets instead, as a sentence; may be empty
     * @param nearby signals near the net that do have a way; only in an explained answer
     */
    record NoRoute(
            Question question,
            NoRouteReason reason,
            String detail,
            List<NearbySignal> nearby,
            Optional<DisconnectedBranch> disconnected,
            List<String> cautions)
            implements Answer {
        /** Copies the lists. */
        public NoRoute {
            nearby = List.copyOf(nearby);
            cautions = List.copyOf(cautions);
        }
    }
}
