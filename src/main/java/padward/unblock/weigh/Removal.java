package padward.unblock.weigh;

import java.util.List;
import java.util.Optional;
import padward.change.Edit;
import padward.design.Occupant;
import padward.unblock.move.Consequence;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.release.LostEndpoint;

/**
 * One obstacle of an option to unblock, and what removing it means.
 *
 * @param occupant the cell or net to be removed
 * @param vertices the vertices of the route that it uses, in the order of the route; none when it
 *     only uses the pad's enable
 * @param consequence what removing it means
 * @param wouldLose the endpoints that would lose their signal if it were removed and not moved
 * @param onEveryRoute whether every route passes something that it uses
 */
public record Removal(
        Occupant occupant,
        List<Integer> vertices,
        Consequence consequence,
        List<LostEndpoint> wouldLose,
        boolean onEveryRoute) {
    /** Copies the lists. */
    public Removal {
        vertices = List.copyOf(vertices);
        wouldLose = List.copyOf(wouldLose);
    }

    /** Whether it is the net that a disconnected port drives, and goes with that. */
    boolean goesWith(Optional<DisconnectedBranch> disconnected) {
        return goesWith(occupant, disconnected);
    }

    static boolean goesWith(Occupant occupant, Optional<DisconnectedBranch> disconnected) {
        return occupant instanceof Occupant.ByNet by
                && disconnected.filter(d -> d.takesAlong(by.net())).isPresent();
    }

    /** The edit that removes it. */
    public Edit removing() {
        return removing(occupant);
    }

    public static Edit removing(Occupant occupant) {
        return occupant instanceof Occupant.ByCell cell
                ? new Edit.RemoveCell(cell.name())
                : new Edit.RemoveNet(occupant.name());
    }

    /** The edits that make room: its move where it can be moved, else its removal. */
    public List<Edit> edits() {
        return consequence instanceof Consequence.Movable movable
                ? movable.edits()
                : List.of(removing());
    }
}
