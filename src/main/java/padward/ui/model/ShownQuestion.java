package padward.ui.model;

import java.util.List;
import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Hop;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.Route;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.survey.Survey;
import padward.fabric.Corner;

/**
 * The question that is shown: when another of the open questions is shown, all properties change to
 * those of that one, and their listeners are notified.
 */
public final class ShownQuestion {
    private final ReadOnlyObjectProperty<QuestionModel> shown;
    private final ObjectProperty<String> netText;
    private final ObjectProperty<String> padText;
    private final ObjectProperty<Corner> corner;
    private final ObjectProperty<Optional<Survey>> survey;
    private final ObjectProperty<Optional<PendingWhatIf>> whatIf;
    private final ObjectProperty<Optional<Answer>> preview;
    private final ObjectProperty<Integer> option;
    private final ObjectProperty<Optional<Answer>> answer;
    private final ObjectProperty<Optional<Integer>> selectedHop;

    ShownQuestion(ReadOnlyObjectProperty<QuestionModel> shown) {
        this.shown = shown;
        netText = new ShownQuestionProperty<>(shown, QuestionModel::netTextProperty);
        padText = new ShownQuestionProperty<>(shown, QuestionModel::padTextProperty);
        corner = new ShownQuestionProperty<>(shown, QuestionModel::cornerProperty);
        survey = new ShownQuestionProperty<>(shown, q -> q.survey().surveyProperty());
        whatIf = new ShownQuestionProperty<>(shown, QuestionModel::whatIfProperty);
        preview = new ShownQuestionProperty<>(shown, q -> q.focus().previewProperty());
        option = new ShownQuestionProperty<>(shown, q -> q.focus().optionProperty());
        answer = new ShownQuestionProperty<>(shown, QuestionModel::answerProperty);
        // After the answer: listeners look for the hop in the route of the answer.
        selectedHop = new ShownQuestionProperty<>(shown, q -> q.focus().selectedHopProperty());
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
