package padward.unblock;

import java.util.List;
import padward.design.Occupant;
import padward.unblock.weigh.UnblockOption;
import padward.unblock.why.Chokepoint;

/**
 * Why no free way leads to the pad, and what would open one.
 *
 * @param options what to free: the fewest obstacles first, then the least harm, then the quickest;
 *     no clearance holds another
 * @param atLeast no fewer obstacles than this open a way
 * @param provenFewest whether the first clearance is proven to have the fewest obstacles
 * @param all whether every smallest set of obstacles that opens a way is among the clearances
 * @param chokepoints what every way passes, even on the empty fabric, in the order of the ways
 * @param oneOfThese occupants such that every way passes something that one of them holds; empty
 *     when a held chokepoint says more, or the narrowest place was not found
 */
public record Explanation(
        List<UnblockOption> options,
        int atLeast,
        boolean provenFewest,
        boolean all,
        List<Chokepoint> chokepoints,
        List<Occupant> oneOfThese) {
    /** Copies the lists. */
    public Explanation {
        options = List.copyOf(options);
        chokepoints = List.copyOf(chokepoints);
        oneOfThese = List.copyOf(oneOfThese);
    }

    /** The first clearance. */
    public UnblockOption best() {
        return options.get(0);
    }
}
