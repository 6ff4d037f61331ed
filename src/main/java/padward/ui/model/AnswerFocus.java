package padward.ui.model;

import java.util.List;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.change.Edit;

/**
 * What is looked at of an answer: one of its clearances with the way that it opens, a hop of that
 * way, the answer for another pad beside it.
 */
final class AnswerFocus {
    private final ReadOnlyObjectProperty<Optional<Answer>> answer;
    private final ReadOnlyObjectProperty<Optional<PendingWhatIf>> whatIf;
    private final ObjectProperty<Integer> option = new SimpleObjectProperty<>(0);
    private final ObjectProperty<Optional<Integer>> selectedHop =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Answer>> preview =
            new SimpleObjectProperty<>(Optional.empty());

    /**
     * @param answer the answer
     * @param whatIf what is tried out; while there is something, its way is the one to look at
     */
    AnswerFocus(
            ReadOnlyObjectProperty<Optional<Answer>> answer,
            ReadOnlyObjectProperty<Optional<PendingWhatIf>> whatIf) {
        this.answer = answer;
        this.whatIf = whatIf;
    }

    /** Looks at no hop and at no other pad any more. */
    void leaveHops() {
        selectedHop.set(Optional.empty());
        preview.set(Optional.empty());
    }

    /** The clearances of the answer. */
    List<WhyBlocked.Option> options() {
        return answer.get()
                .flatMap(a -> a instanceof Answer.Blocked b ? b.why() : Optional.empty())
                .map(WhyBlocked::options)
                .orElse(List.of());
    }

    /** The clearance that is looked at. */
    Optional<WhyBlocked.Option> chosenOption() {
        List<WhyBlocked.Option> all = options();
        return option.get() < all.size() ? Optional.of(all.get(option.get())) : Optional.empty();
    }

    /** The way of the answer: of the clearance that is looked at, if there is one. */
    Optional<Route> route() {
        return whatIf.get()
                .flatMap(t -> t.after().findRoute())
                .or(() -> chosenOption().map(WhyBlocked.Option::route))
                .or(() -> answer.get().flatMap(Answer::findRoute));
    }

    /** The hop of that way that is selected. */
    Optional<Hop> findSelectedHop() {
        return selectedHop
                .get()
                .flatMap(
                        i -> route().map(Route::hops).filter(h -> i < h.size()).map(h -> h.get(i)));
    }

    /** What stands on that way. */
    List<Obstacle> obstacles() {
        return whatIf.get().isPresent() ? List.of() : obstaclesOfChosen();
    }

    /** What stands on the way of the clearance that is looked at, without the trial. */
    List<Obstacle> obstaclesOfChosen() {
        return chosenOption()
                .map(WhyBlocked.Option::obstacles)
                .orElseGet(
                        () ->
                                answer.get().orElse(null) instanceof Answer.Blocked blocked
                                        ? blocked.obstacles()
                                        : List.of());
    }

    /**
     * What makes room by the clearance that is looked at, if it takes one, and brings the net out;
     * nothing when the net is there already, or no way opens.
     */
    List<Edit> edits() {
        Optional<Answer> now = answer.get();
        if (now.orElse(null) instanceof Answer.Open open && !AnswerEdits.isThere(open)) {
            return AnswerEdits.of(open);
        }
        return now.orElse(null) instanceof Answer.Blocked blocked
                ? chosenOption().map(o -> AnswerEdits.of(blocked, o)).orElse(List.of())
                : List.of();
    }

    /** Index of the hop that is selected in the way. */
    ObjectProperty<Optional<Integer>> selectedHopProperty() {
        return selectedHop;
    }

    /** A surveyed answer that the pointer rests on. */
    ObjectProperty<Optional<Answer>> previewProperty() {
        return preview;
    }

    /** Index of the clearance that is looked at. */
    ObjectProperty<Integer> optionProperty() {
        return option;
    }
}
