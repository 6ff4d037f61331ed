package padward.unblock;

import java.util.List;
import padward.design.Occupant;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoint;

/**
 * Why no free route leads to the pad, and what would open one.
 *
 * @param options what to remove: the fewest obstacles first, then the least harm, then the shortest
 *     delay; no option contains another
 * @param atLeast no fewer obstacles than this open a route
 * @param provenFewest whether the first option is proven to have the fewest obstacles
 * @param all whether every smallest set of obstacles that opens a route is among the options
 * @param chokepoints what every route passes, even on the empty fabric, in the order of the routes
 * @param oneOfThese occupants such that every route passes something that one of them uses; empty
 *     when a used chokepoint says more, or the narrowest place was not found
 */
public record UnblockExplanation(
        List<UnblockOption> options,
        int atLeast,
        boolean provenFewest,
        boolean all,
        List<Chokepoint> chokepoints,
        List<Occupant> oneOfThese) {
    /** Copies the lists. */
    public UnblockExplanation {
        options = List.copyOf(options);
        chokepoints = List.copyOf(chokepoints);
        oneOfThese = List.copyOf(oneOfThese);
    }

    /** The first option. */
    public UnblockOption best() {
        return options.get(0);
    }
}
