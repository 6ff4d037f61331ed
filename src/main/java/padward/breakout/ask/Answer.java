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
     * What is disconnected so that the pad becomes free; empty when no port is on it, or none that
     * can simply be disconnected.
     */
    Optional<DisconnectedBranch> disconnected();

    /** Cautions to be read before anything is driven, the gravest first. */
    List<String> cautions();

    /** The route, of an answer that has one: open now, or once the obstacles are removed. */
    default Optional<Route> findRoute() {
        return Optional.empty();
    }

    /**
     * A route exists now.
     *
     * @param route the one with the shortest delay at the question's corner
     * @param chokepoints what every free route passes, in the order of the route; only in an
     *     explained answer
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
     * A route exists once the obstacles are removed.
     *
     * @param route the best route known: of the explanation's first option, if there is one, else
     *     the route with the fewest changes of occupant along it, then the shortest delay
     * @param obstacles what stands on it, in the order of the route; last, what uses the pad's
     *     enable
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
     * There is no route, not even on an empty fabric.
     *
     * @param reason why
     * @param detail where the net's signal gets instead, as a sentence; may be empty
     * @param nearby signals near the net that do have a route; only in an explained answer
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
