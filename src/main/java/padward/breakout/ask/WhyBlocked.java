package padward.breakout.ask;

import java.util.List;
import padward.unblock.UnblockExplanation;
import padward.unblock.weigh.UnblockOption;

/**
 * The explanation of a blocked answer, with the routes that its options to unblock open.
 *
 * @param explanation what is proven
 * @param options its options to unblock with their routes, best first
 */
public record WhyBlocked(UnblockExplanation explanation, List<Option> options) {
    /** Copies the options. */
    public WhyBlocked {
        options = List.copyOf(options);
    }

    /**
     * One option to unblock.
     *
     * @param option what is removed, and what that means
     * @param route the route with the shortest delay that it opens
     * @param obstacles its obstacles, as they are on the route
     */
    public record Option(UnblockOption option, Route route, List<Obstacle> obstacles) {
        /** Copies the obstacles. */
        public Option {
            obstacles = List.copyOf(obstacles);
        }
    }
}
