package padward.breakout;

import java.util.List;
import padward.clearance.Clearance;
import padward.clearance.Explanation;

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
     * @param clearance what is freed, and what that means
     * @param way the quickest way that it opens
     * @param obstacles its obstacles, as they stand on the way
     */
    public record Option(Clearance clearance, Way way, List<Obstacle> obstacles) {
        /** Copies the obstacles. */
        public Option {
            obstacles = List.copyOf(obstacles);
        }
    }
}
