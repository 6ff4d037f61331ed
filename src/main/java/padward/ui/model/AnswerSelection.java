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
 * What is selected in an answer: one of its options to unblock with the route that it opens, a hop
 * of that route, and the previewed answer for another pad.
 */
final class AnswerSelection {
    private final ReadOnlyObjectProperty<Optional<Answer>> answer;
    private final ReadOnlyObjectProperty<Optional<PendingWhatIf>> whatIf;
    private final ObjectProperty<Integer> option = new SimpleObjectProperty<>(0);
    private final ObjectProperty<Optional<Integer>> selectedHop =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Answer>> preview =
            new SimpleObjectProperty<>(Optional.empty());

    /**
     * @param answer the answer
     * @param whatIf the what-if; while there is one, its route is shown
     */
    AnswerSelection(
            ReadOnlyObjectProperty<Optional<Answer>> answer,
            ReadOnlyObjectProperty<Optional<PendingWhatIf>> whatIf) {
        this.answer = answer;
        this.whatIf = whatIf;
    }

    /** Clears the selected hop and the previewed pad. */
    void clearHops() {
        selectedHop.set(Optional.empty());
        preview.set(Optional.empty());
    }

    /** The options to unblock of the answer. */
    List<WhyBlocked.Option> options() {
        return answer.get()
                .flatMap(a -> a instanceof Answer.Blocked b ? b.why() : Optional.empty())
                .map(WhyBlocked::options)
                .orElse(List.of());
    }

    /** The selected option. */
    Optional<WhyBlocked.Option> chosenOption() {
        List<WhyBlocked.Option> all = options();
        return option.get() < all.size() ? Optional.of(all.get(option.get())) : Optional.empty();
    }

    /** The route of the answer: that of the selected option, if there is one. */
    Optional<Route> route() {
        return whatIf.get()
                .flatMap(t -> t.after().findRoute())
                .or(() -> chosenOption().map(WhyBlocked.Option::route))
                .or(() -> answer.get().flatMap(Answer::findRoute));
    }

    /** The selected hop of that route. */
    Optional<Hop> findSelectedHop() {
        return selectedHop
                .get()
                .flatMap(
                        i -> route().map(Route::hops).filter(h -> i < h.size()).map(h -> h.get(i)));
    }

    /** The obstacles on that route. */
    List<Obstacle> obstacles() {
        return whatIf.get().isPresent() ? List.of() : obstaclesOfChosen();
    }

    /** The obstacles on the route of the selected option, without the what-if. */
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
     * The edits that unblock the route by the selected option, if that is necessary, and bring the
     * net out; none when the net is on the pad already or there is no route.
     */
    List<Edit> edits() {
        Optional<Answer> now = answer.get();
        if (now.orElse(null) instanceof Answer.FreeRoute open && !AnswerEdits.isThere(open)) {
            return AnswerEdits.of(open);
        }
        return now.orElse(null) instanceof Answer.Blocked blocked
                ? chosenOption().map(o -> AnswerEdits.of(blocked, o)).orElse(List.of())
                : List.of();
    }

    /** Index of the selected hop. */
    ObjectProperty<Optional<Integer>> selectedHopProperty() {
        return selectedHop;
    }

    /** The surveyed answer under the pointer. */
    ObjectProperty<Optional<Answer>> previewProperty() {
        return preview;
    }

    /** Index of the selected option. */
    ObjectProperty<Integer> optionProperty() {
        return option;
    }
}
