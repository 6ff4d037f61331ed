package padward.ui.model;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.change.Edit;
import padward.fabric.Corner;
import padward.ui.design.OpenDesign;
import padward.ui.work.Jobs;
import padward.ui.work.Notes;
import padward.ui.work.OneJob;

/**
 * One question: its net, pad and corner, the answer, and a trial that waits to be kept or dropped.
 * What is looked at of the answer and the survey of its net are parts with models of their own.
 */
public final class QuestionModel {
    private final Supplier<Optional<OpenDesign>> opened;
    private final Notes notes;
    private final OneJob asking;
    private final SurveyModel survey;
    private final AnswerFocus focus;
    private final StringProperty netText = new SimpleStringProperty("");
    private final StringProperty padText = new SimpleStringProperty("");
    private final ObjectProperty<Corner> corner = new SimpleObjectProperty<>(Corner.SLOW);
    private final ObjectProperty<Optional<Answer>> answer =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<PendingWhatIf>> whatIf =
            new SimpleObjectProperty<>(Optional.empty());

    /** Whether it was asked in the last session, and has no answer yet. */
    private boolean owed;

    /**
     * @param opened the design that is asked about, whichever it is at the time
     * @param jobs where its work runs
     */
    QuestionModel(Supplier<Optional<OpenDesign>> opened, Jobs jobs) {
        this.opened = opened;
        this.notes = jobs.notes();
        this.asking = new OneJob(jobs, this);
        this.survey = new SurveyModel(new OneJob(jobs, this));
        this.focus = new AnswerFocus(answer, whatIf);
    }

    /** Asks what the fields state. A question still being answered is given up. */
    void ask() {
        ask(() -> {});
    }

    /**
     * Asks.
     *
     * @param then what follows when there is an answer or a note why there is none
     */
    void ask(Runnable then) {
        if (opened.get().isEmpty()) {
            notes.tell(this, "Open a design first (Ctrl+O), then ask.");
            return;
        }
        try {
            Question question =
                    QuestionText.read(
                            opened.get().get(), netText.get(), padText.get(), corner.get());
            netText.set(question.net().name());
            survey.makeRoomFor(question);
            asking.start(
                    "Asking",
                    progress -> Asker.ask(question, progress),
                    result -> {
                        answered(result);
                        then.run();
                    });
        } catch (BadInput fault) {
            owed = false;
            answer.set(Optional.empty());
            notes.putAwayAbout(this);
            notes.tell(this, fault);
            then.run();
        }
    }

    /** Asks for the pad of a surveyed answer. */
    void askFor(Answer surveyed) {
        padText.set(surveyed.question().padValue().name());
        netText.set(surveyed.question().net().name());
        ask();
    }

    /** Puts away what was found out about a design that has changed. */
    private void putAway() {
        asking.cancel();
        survey.clear();
        answer.set(Optional.empty());
        lookAfresh();
    }

    private void lookAfresh() {
        focus.leaveHops();
        whatIf.set(Optional.empty());
        focus.optionProperty().set(0);
    }

    /** Forgets everything, for another design. */
    void clear() {
        owed = false;
        putAway();
        netText.set("");
        padText.set("");
    }

    /**
     * Asks again about a design that has changed, if there was an answer.
     *
     * @param then what follows when that is done or cannot be
     */
    void askAgain(Runnable then) {
        boolean again = answer.get().isPresent();
        putAway();
        if (again) {
            ask(then);
        } else {
            then.run();
        }
    }

    /** Asks again, if what it was told is about a design that has been changed since. */
    void askAgainIfOld() {
        boolean old =
                answer.get()
                        .filter(a -> opened.get().stream().noneMatch(o -> isAbout(a, o)))
                        .isPresent();
        if (old) {
            askAgain(() -> {});
        }
    }

    private static boolean isAbout(Answer answer, OpenDesign opened) {
        return answer.question().design() == opened.design();
    }

    /** Gives up the work that goes on for it. */
    void stop() {
        asking.cancel();
        survey.stop();
    }

    /** What it states. */
    QuestionsModel.Stated stated() {
        return new QuestionsModel.Stated(
                netText.get(), padText.get(), corner.get(), owed || answer.get().isPresent());
    }

    /** Fills the fields. */
    void state(QuestionsModel.Stated stated) {
        netText.set(stated.net());
        padText.set(stated.pad());
        corner.set(stated.corner());
        owed = stated.asked();
    }

    /** The question in a few words: the net's last part and the pad, as far as they are given. */
    public String title() {
        String net = netText.get().strip();
        String pad = padText.get().strip();
        if (net.isEmpty() && pad.isEmpty()) {
            return "new question";
        }
        String part = net.substring(net.lastIndexOf('/') + 1);
        return (part.isEmpty() ? "…" : part) + " on " + (pad.isEmpty() ? "…" : pad);
    }

    /** Takes an answer that has been found already. */
    void answered(Answer result) {
        owed = false;
        lookAfresh();
        answer.set(Optional.of(result));
        survey.survey(result.question());
    }

    /**
     * Tries out the answer: makes room by the clearance that is looked at, if it takes one, brings
     * the net out, and asks again.
     */
    void tryIt() {
        if (answer.get().isEmpty() || whatIf.get().isPresent()) {
            return;
        }
        List<Edit> edits = focus.edits();
        if (!edits.isEmpty()) {
            start(answer.get().get(), edits);
        }
    }

    /** Drops the trial; all is as it was. */
    void drop() {
        whatIf.set(Optional.empty());
    }

    /** Tries the same once more, unless something else has been asked since. */
    void tryAgain(Answer before, List<Edit> edits) {
        if (answer.get().filter(a -> a == before).isPresent()) {
            start(before, edits);
        }
    }

    private void start(Answer before, List<Edit> edits) {
        OpenDesign now = opened.get().orElseThrow();
        asking.start(
                "Trying the change",
                progress -> PendingWhatIf.of(now, before, edits, progress),
                t -> whatIf.set(Optional.of(t)));
    }

    /** What is looked at of the answer. */
    AnswerFocus focus() {
        return focus;
    }

    /** The survey of the net. */
    SurveyModel survey() {
        return survey;
    }

    /** What stands in the net's field. */
    public StringProperty netTextProperty() {
        return netText;
    }

    /** What stands in the pad's field. */
    public StringProperty padTextProperty() {
        return padText;
    }

    /** The corner that is asked for. */
    ObjectProperty<Corner> cornerProperty() {
        return corner;
    }

    /** The answer. */
    public ObjectProperty<Optional<Answer>> answerProperty() {
        return answer;
    }

    /** The trial that waits to be kept or dropped. */
    public ObjectProperty<Optional<PendingWhatIf>> whatIfProperty() {
        return whatIf;
    }

    /** Whether it is being answered or tried out. */
    public ReadOnlyBooleanProperty busyProperty() {
        return asking.busyProperty();
    }
}
