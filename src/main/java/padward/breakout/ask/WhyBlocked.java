package padward.breakout.ask;

import java.util.List;
import padward.unblock.Explanation;
import padward.unblock.weigh.UnblockOption;

/**
 * The explanation of a blocked answer, with the ways that its clearances open.
 *
 * @param explanation what is proven
 * @param options its clearances with their ways, best first
 */
public record WhyBlocked(Explanation explanation, List<Option> options) {
    /** Copies the options. */
    public WhyBlocked {
        options = List.copyOf(options);
    }

    /**
     * One clearance.
     *
     * @param option what is freed, and what that means
     * @param route the quickest way that it opens
     * @param obstacles its obstacles, as they stand on the way
     */
    public record Option(UnblockOption option, Route route, List<Obstacle> obstacles) {
        /** Copies the obstacles. */
        public Option {
            obstacles = List.copyOf(obstacles);
        }
    }
}
