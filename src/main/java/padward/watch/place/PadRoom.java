package padward.watch.place;

import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;
import padward.design.Design;
import padward.design.Occupant;
import padward.unblock.move.Consequence;
import padward.unblock.weigh.Removal;
import padward.unblock.why.SearchLimits;

/**
 * Makes room on the route to a pad by moving what is there, where nothing is lost by that. Nets
 * that the circuit observes stay as they are, as do its own: its delays are worked out along them.
 */
final class PadRoom {
    private final Asker asker;
    private final Design design;
    private final Set<String> observed;

    /**
     * @param design the design without the circuit, of which nothing is moved
     */
    PadRoom(Asker asker, Design design, Connections connections) {
        this.asker = asker;
        this.design = design;
        this.observed =
                connections.sources().stream()
                        .filter(Source.OfNet.class::isInstance)
                        .map(s -> ((Source.OfNet) s).net().name())
                        .collect(Collectors.toUnmodifiableSet());
    }

    /** The moves of the best option to unblock that has only moves; none when there is none. */
    List<Edit> movesFor(Question question, Progress progress) {
        Optional<WhyBlocked> why =
                asker.explained(question, SearchLimits.USUAL, progress) instanceof Answer.Blocked b
                        ? b.why()
                        : Optional.empty();
        return why.stream()
                .flatMap(w -> w.options().stream())
                .map(WhyBlocked.Option::option)
                .filter(o -> o.removals().stream().allMatch(this::isMove))
                .findFirst()
                .map(o -> o.edits(Optional.empty()))
                .orElse(List.of());
    }

    private boolean isMove(Removal removal) {
        boolean own =
                removal.occupant() instanceof Occupant.ByCell
                        ? design.findCell(removal.occupant().name()).isEmpty()
                        : design.findNet(removal.occupant().name()).isEmpty();
        boolean clock = removal.occupant() instanceof Occupant.ByNet of && of.net().clock();
        return !own
                && !clock
                && removal.consequence() instanceof Consequence.Movable movable
                && movable.edits().stream()
                        .flatMap(e -> e.reroutes().stream())
                        .map(Edit.RouteNet::net)
                        .allMatch(this::mayMove);
    }

    private boolean mayMove(String net) {
        return !observed.contains(net) && design.findNet(net).isPresent();
    }
}
