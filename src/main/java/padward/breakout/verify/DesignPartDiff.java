package padward.breakout.verify;

import java.util.List;

/**
 * A cell or a port that is not alike in two designs.
 *
 * @param name its name
 * @param how whether it is gone, changed or new
 * @param facts what differs; for one that is gone or new, all that is said of it
 */
public record DesignPartDiff(String name, Difference how, List<NetDiff.Fact> facts) {
    /** Copies the facts. */
    public DesignPartDiff {
        facts = List.copyOf(facts);
    }
}
