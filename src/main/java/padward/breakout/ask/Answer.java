package padward.breakout.ask;

import java.util.List;
import java.util.Optional;
import padward.design.Port;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.why.Chokepoint;

/** The answer to a {@link Question}: exactly one of four. */
public sealed interface Answer {
    /** The question answered. */
    Question question();

    /**
     * What is disconnected so that the pad becomes free; empty when no port is on it, or none that
     * can simply be disconnected.
     */
    Optional<DisconnectedBranch> disconnected();

    /** Cautions to be read before anything is driven, the gravest first. */
    List<Caution> cautions();

    /** The same answer with other cautions. */
    Answer withCautions(List<Caution> others);

    /** The route, of an answer that has one: open now, or once the obstacles are removed. */
    default Optional<Route> findRoute() {
        return Optional.empty();
    }

    /** A route exists now, over what is free, and what a port on the pad leaves free. */
    sealed interface FreeRoute extends Answer permits Open, TakesPort {
        /** The route with the shortest delay at the question's corner. */
        Route route();

        /** What every free route passes, in its order; only in an explained answer. */
        List<Chokepoint> chokepoints();

        @Override
        default Optional<Route> findRoute() {
            return Optional.of(route());
        }

        /** The same answer with what every free route passes. */
        FreeRoute explained(List<Chokepoint> passed);
    }

    /**
     * A route exists now, and it costs nobody anything.
     *
     * @param route the one with the shortest delay at the question's corner
     * @param chokepoints what every free route passes, in the order of the route; only in an
     *     explained answer
     */
    record Open(
            Question question, Route route, List<Chokepoint> chokepoints, List<Caution> cautions)
            implements FreeRoute {
        /** Copies the lists. */
        public Open {
            chokepoints = List.copyOf(chokepoints);
            cautions = List.copyOf(cautions);
        }

        @Override
        public Optional<DisconnectedBranch> disconnected() {
            return Optional.empty();
        }

        @Override
        public Open explained(List<Chokepoint> passed) {
            return new Open(question, route, passed, cautions);
        }

        @Override
        public Open withCautions(List<Caution> others) {
            return new Open(question, route, chokepoints, others);
        }
    }

    /**
     * A route exists now, but a port of the design loses its pad.
     *
     * @param route the one with the shortest delay at the question's corner
     * @param chokepoints what every free route passes, in the order of the route; only in an
     *     explained answer
     * @param port the port
     */
    record TakesPort(
            Question question,
            Route route,
            List<Chokepoint> chokepoints,
            Port port,
            Optional<DisconnectedBranch> disconnected,
            List<Caution> cautions)
            implements FreeRoute {
        /** Copies the lists. */
        public TakesPort {
            chokepoints = List.copyOf(chokepoints);
            cautions = List.copyOf(cautions);
        }

        @Override
        public TakesPort explained(List<Chokepoint> passed) {
            return new TakesPort(question, route, passed, port, disconnected, cautions);
        }

        @Override
        public TakesPort withCautions(List<Caution> others) {
            return new TakesPort(question, route, chokepoints, port, disconnected, others);
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
            List<Caution> cautions,
            Optional<WhyBlocked> why)
            implements Answer {
        /** Copies the lists. */
        public Blocked {
            obstacles = List.copyOf(obstacles);
            cautions = List.copyOf(cautions);
        }

        @Override
        public Blocked withCautions(List<Caution> others) {
            return new Blocked(question, route, obstacles, disconnected, others, why);
        }

        @Override
        public Optional<Route> findRoute() {
            return Optional.of(route);
        }
    }

    /**
     * There is no route, whatever other nets and cells are removed.
     *
     * @param reason why
     * @param detail where the net's signal gets instead, what stands in the way, or what is not
     *     known, in sentences; may be empty
     * @param nearby signals near the net that do have a route; only in an explained answer
     */
    record NoRoute(
            Question question,
            NoRouteReason reason,
            String detail,
            List<NearbySignal> nearby,
            Optional<DisconnectedBranch> disconnected,
            List<Caution> cautions)
            implements Answer {
        /** Copies the lists. */
        public NoRoute {
            nearby = List.copyOf(nearby);
            cautions = List.copyOf(cautions);
        }

        @Override
        public NoRoute withCautions(List<Caution> others) {
            return new NoRoute(question, reason, detail, nearby, disconnected, others);
        }
    }
}
