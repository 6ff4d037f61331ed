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
 * A set of obstacles whose freeing opens a way, with the quickest way that it opens.
 *
 * @param removals its obstacles in the order of the way; one for the pad's enable comes last
 * @param path the way's new part, from the net's tree to the pad
 * @param branchKept an edit that keeps the branch from which the way sets out, where freeing all
 *     obstacles would take it along
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

    /** Ports first, then nets, then cells: a freed cell takes along the nets that it drives. */
    public static final Comparator<Edit> FREEING_ORDER =
            Comparator.comparingInt(
                    e ->
                            e instanceof Edit.DisconnectPort
                                    ? 0
                                    : e instanceof Edit.RemoveNet ? 1 : 2);

    /** How many obstacles cannot be freed without a loss. */
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

    /** How many nets are laid anew. */
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

    /** The edits that let the port go and free all obstacles without moving any. */
    public List<Edit> freeing(Optional<DisconnectedBranch> disconnected) {
        List<Edit> result = new ArrayList<>();
        disconnected.ifPresent(l -> result.add(l.toEdit()));
        removals.forEach(r -> result.add(r.freeing()));
        result.sort(FREEING_ORDER);
        branchKept.ifPresent(result::add);
        return result;
    }

    /** The edits that let the port go and make room, moving what can be moved. */
    public List<Edit> edits(Optional<DisconnectedBranch> disconnected) {
        List<Edit> result = new ArrayList<>();
        disconnected.ifPresent(l -> result.add(l.toEdit()));
        // What is freed goes first: moves may need the room.
        removals.stream()
                .filter(r -> !(r.consequence() instanceof Consequence.Movable))
                .forEach(r -> result.addAll(r.edits()));
        result.sort(FREEING_ORDER);
        branchKeptWhenMoved.ifPresent(result::add);
        removals.stream()
                .filter(r -> r.consequence() instanceof Consequence.Movable)
                .forEach(r -> result.addAll(r.edits()));
        return result;
    }
}
