package padward.breakout.ask;

import java.util.List;
import padward.design.Occupant;

/**
 * An occupant on a route.
 *
 * @param occupant the cell or net to be removed
 * @param resource what it uses there: the site's name for a cell, else the first vertex's name
 * @param resourceKind {@code IO register site}, {@code site}, {@code wire}, {@code pad}, or {@link
 *     #SWITCH_GROUP} where it has another switch of the group on
 * @param switchOn the switch that it has on, {@code from → to}, where it is in the way by that
 *     alone; else empty
 * @param tile name of the tile where the resource is
 * @param hops indices of the route's hops that it uses; none when it only uses the pad's enable
 * @param withItsNets whether it is a cell that uses some of this only through the nets at it
 * @param removable whether all that it feeds ends in the port that loses its pad
 * @param wouldLose how many endpoints would lose their signal if it were removed and not moved
 */
public record Obstacle(
        Occupant occupant,
        String resource,
        String resourceKind,
        String switchOn,
        String tile,
        List<Integer> hops,
        boolean withItsNets,
        boolean removable,
        int wouldLose) {
    /** The kind of resource of which one switch can be on. */
    public static final String SWITCH_GROUP = "switch group";

    /** Copies the hops. */
    public Obstacle {
        hops = List.copyOf(hops);
    }
}
