package padward.watch.place;

import java.util.List;
import java.util.Optional;
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

/** Makes room on the way to a pad by moving what is there, where nothing is lost by that. */
final class PadRoom {
    private final Asker asker;
    private final Design design;

    /**
     * @param design the design without the circuit, of which nothing is moved
     */
    PadRoom(Asker asker, Design design) {
        this.asker = asker;
        this.design = design;
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
        return !own && !clock && removal.consequence() instanceof Consequence.Movable;
    }
}
