package padward.unblock.weigh;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import padward.change.Edit;
import padward.route.search.VertexPath;
import padward.unblock.move.Consequence;
import padward.unblock.release.DisconnectedBranch;

/**
 * A set of obstacles whose removal opens a route, with the fastest such route.
 *
 * @param removals its obstacles in the order of the route; one for the pad's enable comes last
 * @param path the route's new part, from the net's tree to the pad
 * @param branchKept an edit that keeps the branch from which the route starts, where removing all
 *     obstacles would remove it too
 * @param branchKeptWhenMoved the same for when obstacles are moved that can be
 */
public record UnblockOption(
        List<Removal> removals,
        VertexPath path,
        Optional<Edit> branchKept,
        Optional<Edit> branchKeptWhenMoved) {
    /** Copies the removals. */
    public UnblockOption {
        removals = List.copyOf(removals);
    }

    /** Ports first, then nets, then cells: a removed cell takes the nets that it drives with it. */
    public static final Comparator<Edit> REMOVAL_ORDER =
            Comparator.comparingInt(
                    e ->
                            e instanceof Edit.DisconnectPort
                                    ? 0
                                    : e instanceof Edit.RemoveNet ? 1 : 2);

    /** How many obstacles cannot be removed without a loss. */
    public int losesFunctionCount() {
        return (int)
                removals.stream()
                        .filter(r -> r.consequence() instanceof Consequence.LosesFunction)
                        .count();
    }

    /** How many obstacles have to be moved. */
    public int movedCount() {
        return (int)
                removals.stream()
                        .filter(r -> r.consequence() instanceof Consequence.Movable)
                        .count();
    }

    /** How many nets are rerouted. */
    public int shiftCount() {
        return removals.stream()
                .mapToInt(
                        r ->
                                r.consequence() instanceof Consequence.Movable movable
                                        ? movable.delayChanges().size()
                                        : 0)
                .sum();
    }

    /** How many endpoints lose their signal. */
    public int lostCount() {
        return removals.stream()
                .mapToInt(
                        r ->
                                r.consequence() instanceof Consequence.LosesFunction losesFunction
                                        ? losesFunction.lost().size()
                                        : 0)
                .sum();
    }

    /** The edits that disconnect the port and remove all obstacles without moving any. */
    public List<Edit> removing(Optional<DisconnectedBranch> disconnected) {
        List<Edit> result = new ArrayList<>();
        disconnected.ifPresent(l -> result.add(l.toEdit()));
        removals.stream()
                .filter(r -> !r.goesWith(disconnected))
                .forEach(r -> result.add(r.removing()));
        result.sort(REMOVAL_ORDER);
        branchKept.ifPresent(result::add);
        return result;
    }

    /** The edits that disconnect the port and make room, moving what can be moved. */
    public List<Edit> edits(Optional<DisconnectedBranch> disconnected) {
        List<Edit> result = new ArrayList<>();
        disconnected.ifPresent(l -> result.add(l.toEdit()));
        // Removals go first: moves may need the room.
        removals.stream()
                .filter(r -> !(r.consequence() instanceof Consequence.Movable))
                .filter(r -> !r.goesWith(disconnected))
                .forEach(r -> result.addAll(r.edits()));
        result.sort(REMOVAL_ORDER);
        branchKeptWhenMoved.ifPresent(result::add);
        removals.stream()
                .filter(r -> r.consequence() instanceof Consequence.Movable)
                .forEach(r -> result.addAll(r.edits()));
        return result;
    }
}
