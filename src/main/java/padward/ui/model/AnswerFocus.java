package padward.ui.model;

import java.util.List;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.breakout.Answer;
import padward.breakout.Hop;
import padward.breakout.Keeping;
import padward.breakout.Obstacle;
import padward.breakout.Way;
import padward.breakout.WhyBlocked;
import padward.design.Edit;

/**
 * What is looked at of an answer: one of its clearances with the way that it opens, a hop of that
 * way, the answer for another pad beside it.
 */
final class AnswerFocus {
    private final ReadOnlyObjectProperty<Optional<Answer>> answer;
    private final ReadOnlyObjectProperty<Optional<TriedOut>> trial;
    private final ObjectProperty<Integer> option = new SimpleObjectProperty<>(0);
    private final ObjectProperty<Optional<Integer>> selectedHop =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Answer>> preview =
            new SimpleObjectProperty<>(Optional.empty());

    /**
     * @param answer the answer
     * @param trial what is tried out; while there is something, its way is the one to look at
     */
    AnswerFocus(
            ReadOnlyObjectProperty<Optional<Answer>> answer,
            ReadOnlyObjectProperty<Optional<TriedOut>> trial) {
        this.answer = answer;
        this.trial = trial;
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
    Optional<Way> way() {
        return trial.get()
                .flatMap(t -> t.after().findWay())
                .or(() -> chosenOption().map(WhyBlocked.Option::way))
                .or(() -> answer.get().flatMap(Answer::findWay));
    }

    /** The hop of that way that is selected. */
    Optional<Hop> findSelectedHop() {
        return selectedHop
                .get()
                .flatMap(i -> way().map(Way::hops).filter(h -> i < h.size()).map(h -> h.get(i)));
    }

    /** What stands on that way. */
    List<Obstacle> obstacles() {
        return trial.get().isPresent() ? List.of() : obstaclesOfChosen();
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
        if (now.orElse(null) instanceof Answer.Open open && !Keeping.isThere(open)) {
            return Keeping.of(open);
        }
        return now.orElse(null) instanceof Answer.Blocked blocked
                ? chosenOption().map(o -> Keeping.of(blocked, o)).orElse(List.of())
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
