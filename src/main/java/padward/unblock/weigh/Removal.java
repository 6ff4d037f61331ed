package padward.unblock.weigh;

import java.util.List;
import padward.change.Edit;
import padward.design.Occupant;
import padward.unblock.move.Consequence;
import padward.unblock.release.Endpoint;

/**
 * One obstacle of a clearance, and what freeing it means.
 *
 * @param occupant the cell or net to be freed
 * @param vertices the vertices of the way that it holds, in the order of the way; none when only
 *     the pad's enable is in its hands
 * @param consequence what freeing it means
 * @param wouldLose the endpoints that would lose their signal if it were freed and not moved
 * @param onEveryRoute whether every way passes something that it holds
 */
public record Removal(
        Occupant occupant,
        List<Integer> vertices,
        Consequence consequence,
        List<Endpoint> wouldLose,
        boolean onEveryRoute) {
    /** Copies the lists. */
    public Removal {
        vertices = List.copyOf(vertices);
        wouldLose = List.copyOf(wouldLose);
    }

    /** The edit that frees it. */
    public Edit freeing() {
        return freeing(occupant);
    }

    public static Edit freeing(Occupant occupant) {
        return occupant instanceof Occupant.ByCell cell
                ? new Edit.RemoveCell(cell.name())
                : new Edit.RemoveNet(occupant.name());
    }

    /** The edits that make room: its move where it can be moved, else its freeing. */
    public List<Edit> edits() {
        return consequence instanceof Consequence.Movable movable
                ? movable.edits()
                : List.of(freeing());
    }
}
