package padward.ui.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.Property;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.value.ObservableValue;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.survey.Survey;
import padward.fabric.delay.Corner;

/**
 * The question that is shown: when another of the open questions is shown, all properties change to
 * those of that one, and their listeners are notified.
 */
public final class ShownQuestion {
    private final ReadOnlyObjectProperty<QuestionModel> shown;
    private final List<ShownQuestionProperty<?>> parts = new ArrayList<>();
    private final ObservableValue<Optional<NameOffers>> offers;
    private final ObservableValue<Boolean> asAsked;
    private final ObservableValue<QuestionModel.Scope> scope;
    private final ObservableValue<String> askedText;
    private final ObjectProperty<String> netText;
    private final ObjectProperty<String> padText;
    private final ObjectProperty<Corner> corner;
    private final ObjectProperty<Optional<Survey>> survey;
    private final ObjectProperty<Optional<PendingWhatIf>> whatIf;
    private final ObjectProperty<Boolean> accepted;
    private final ObjectProperty<Optional<Answer>> preview;
    private final ObjectProperty<Integer> option;
    private final ObjectProperty<Optional<Answer>> answer;
    private final ObjectProperty<Optional<Integer>> selectedHop;

    ShownQuestion(ReadOnlyObjectProperty<QuestionModel> shown) {
        this.shown = shown;
        netText = part(QuestionModel::netTextProperty);
        padText = part(QuestionModel::padTextProperty);
        corner = part(QuestionModel::cornerProperty);
        survey = part(q -> q.survey().surveyProperty());
        accepted = part(QuestionModel::boundAccepted);
        whatIf = part(QuestionModel::boundWhatIf);
        preview = part(q -> q.focus().previewProperty());
        option = part(q -> q.focus().optionProperty());
        answer = part(QuestionModel::boundAnswer);
        // After the answer: listeners look for the hop in the route of the answer.
        selectedHop = part(q -> q.focus().selectedHopProperty());
        asAsked = shown.flatMap(QuestionModel::asAskedProperty);
        scope = shown.flatMap(QuestionModel::scopeProperty);
        askedText =
                shown.flatMap(QuestionModel::askedProperty).map(asked -> shown.get().toAskedText());
        offers = shown.flatMap(QuestionModel::offersProperty);
        shown.addListener((p, old, now) -> change(old, now));
    }

    private <T> ObjectProperty<T> part(Function<QuestionModel, Property<T>> property) {
        ShownQuestionProperty<T> part = new ShownQuestionProperty<>(shown.get(), property);
        parts.add(part);
        return part;
    }

    /**
     * All properties leave the old question before the first one joins the new one: what listeners
     * do meanwhile changes neither of the two.
     */
    private void change(QuestionModel old, QuestionModel now) {
        parts.forEach(p -> p.leave(old));
        parts.forEach(p -> p.join(now));
    }

    /** Whether the fields say what was asked; also when nothing was. */
    public ObservableValue<Boolean> asAskedProperty() {
        return asAsked;
    }

    /** What was asked for: one pad, any of several, or any net. */
    public ObservableValue<QuestionModel.Scope> scopeProperty() {
        return scope;
    }

    /** What was asked, in full; empty when nothing was. */
    public ObservableValue<String> askedTextProperty() {
        return askedText;
    }

    /** Names to choose from, where one that was asked for does not mean one thing. */
    public ObservableValue<Optional<NameOffers>> offersProperty() {
        return offers;
    }

    /** The question that is shown now. */
    public QuestionModel question() {
        return shown.get();
    }

    /** Asks the question in the fields. */
    public void ask() {
        question().ask();
    }

    /** Asks about the pad of a surveyed answer. */
    public void askFor(Answer surveyed) {
        question().askFor(surveyed);
    }

    /** Tries the answer with the selected option. */
    public void tryIt() {
        question().tryIt();
    }

    /** The options to unblock of the answer. */
    public List<WhyBlocked.Option> options() {
        return question().focus().options();
    }

    /** The selected option. */
    public Optional<WhyBlocked.Option> chosenOption() {
        return question().focus().chosenOption();
    }

    /** The route of the answer: that of the selected option, if there is one. */
    public Optional<Route> route() {
        return question().focus().route();
    }

    /** The selected hop of that route. */
    public Optional<Hop> findSelectedHop() {
        return question().focus().findSelectedHop();
    }

    /** The obstacles on that route. */
    public List<Obstacle> obstacles() {
        return question().focus().obstacles();
    }

    /** The obstacles on the route of the selected option, without the what-if. */
    public List<Obstacle> obstaclesOfChosen() {
        return question().focus().obstaclesOfChosen();
    }

    /** All pads for the net, once they are surveyed. */
    public ReadOnlyObjectProperty<Optional<Survey>> surveyProperty() {
        return survey;
    }

    /** The surveyed answer under the pointer; the map shows its route as well. */
    public ObjectProperty<Optional<Answer>> previewProperty() {
        return preview;
    }

    /** Index of the selected option. */
    public ObjectProperty<Integer> optionProperty() {
        return option;
    }

    /** The what-if that waits to be kept or dropped. */
    public ReadOnlyObjectProperty<Optional<PendingWhatIf>> whatIfProperty() {
        return whatIf;
    }

    /** Whether the user has accepted what the what-if does on the board. */
    public ObjectProperty<Boolean> acceptedProperty() {
        return accepted;
    }

    /** Whether the what-if can be kept: it does nothing that must be accepted, or that is. */
    public boolean isAccepted() {
        return accepted.get() || whatIf.get().map(w -> w.price().toAccept().isEmpty()).orElse(true);
    }

    /** The answer. */
    public ReadOnlyObjectProperty<Optional<Answer>> answerProperty() {
        return answer;
    }

    /** Index of the selected hop. */
    public ObjectProperty<Optional<Integer>> selectedHopProperty() {
        return selectedHop;
    }

    /** Text of the net field. */
    public ObjectProperty<String> netTextProperty() {
        return netText;
    }

    /** Text of the pad field. */
    public ObjectProperty<String> padTextProperty() {
        return padText;
    }

    /** The corner that is asked for. */
    public ObjectProperty<Corner> cornerProperty() {
        return corner;
    }
}
