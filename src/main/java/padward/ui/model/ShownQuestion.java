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
 * The question that is shown, whichever of the open ones that is: when another one is shown, all of
 * this is about that one, and whoever listens hears of it.
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
        netText = new ShownProperty<>(shown, QuestionModel::netTextProperty);
        padText = new ShownProperty<>(shown, QuestionModel::padTextProperty);
        corner = new ShownProperty<>(shown, QuestionModel::cornerProperty);
        survey = new ShownProperty<>(shown, q -> q.survey().surveyProperty());
        whatIf = new ShownProperty<>(shown, QuestionModel::whatIfProperty);
        preview = new ShownProperty<>(shown, q -> q.focus().previewProperty());
        option = new ShownProperty<>(shown, q -> q.focus().optionProperty());
        answer = new ShownProperty<>(shown, QuestionModel::answerProperty);
        // After the answer: who hears of a hop looks for it in the answer's way.
        selectedHop = new ShownProperty<>(shown, q -> q.focus().selectedHopProperty());
    }

    /** The one that is shown now. */
    public QuestionModel question() {
        return shown.get();
    }

    /** Asks what the fields state. */
    public void ask() {
        question().ask();
    }

    /** Asks for the pad of a surveyed answer. */
    public void askFor(Answer surveyed) {
        question().askFor(surveyed);
    }

    /** Tries out the answer, by the clearance that is looked at. */
    public void tryIt() {
        question().tryIt();
    }

    /** The clearances of the answer. */
    public List<WhyBlocked.Option> options() {
        return question().focus().options();
    }

    /** The clearance that is looked at. */
    public Optional<WhyBlocked.Option> chosenOption() {
        return question().focus().chosenOption();
    }

    /** The way of the answer: of the clearance that is looked at, if there is one. */
    public Optional<Route> route() {
        return question().focus().route();
    }

    /** The hop of that way that is selected. */
    public Optional<Hop> findSelectedHop() {
        return question().focus().findSelectedHop();
    }

    /** What stands on that way. */
    public List<Obstacle> obstacles() {
        return question().focus().obstacles();
    }

    /** What stands on the way of the clearance that is looked at, without the trial. */
    public List<Obstacle> obstaclesOfChosen() {
        return question().focus().obstaclesOfChosen();
    }

    /** All pads for the net, once they are surveyed. */
    public ReadOnlyObjectProperty<Optional<Survey>> surveyProperty() {
        return survey;
    }

    /** A surveyed answer that the pointer rests on; its way is shown beside the present one. */
    public ObjectProperty<Optional<Answer>> previewProperty() {
        return preview;
    }

    /** Index of the clearance that is looked at. */
    public ObjectProperty<Integer> optionProperty() {
        return option;
    }

    /** The trial that waits to be kept or dropped. */
    public ReadOnlyObjectProperty<Optional<PendingWhatIf>> whatIfProperty() {
        return whatIf;
    }

    /** The answer. */
    public ReadOnlyObjectProperty<Optional<Answer>> answerProperty() {
        return answer;
    }

    /** Index of the hop that is selected in the way. */
    public ObjectProperty<Optional<Integer>> selectedHopProperty() {
        return selectedHop;
    }

    /** What stands in the net's field. */
    public ObjectProperty<String> netTextProperty() {
        return netText;
    }

    /** What stands in the pad's field. */
    public ObjectProperty<String> padTextProperty() {
        return padText;
    }

    /** The corner that is asked for. */
    public ObjectProperty<Corner> cornerProperty() {
        return corner;
    }
}
