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
import padward.ui.work.JobSlot;
import padward.ui.work.Jobs;
import padward.ui.work.Notes;

/**
 * One question: its net, pad and corner, the answer, and a what-if that waits to be kept or
 * dropped. The selection in the answer and the survey of its net have models of their own.
 */
public final class QuestionModel {
    private final Supplier<Optional<OpenDesign>> opened;
    private final Notes notes;
    private final JobSlot asking;
    private final SurveyModel survey;
    private final AnswerSelection focus;
    private final StringProperty netText = new SimpleStringProperty("");
    private final StringProperty padText = new SimpleStringProperty("");
    private final ObjectProperty<Corner> corner = new SimpleObjectProperty<>(Corner.SLOW);
    private final ObjectProperty<Optional<Answer>> answer =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<PendingWhatIf>> whatIf =
            new SimpleObjectProperty<>(Optional.empty());

    /** Whether it was asked in the last session and is not answered yet. */
    private boolean owed;

    /**
     * @param opened supplies the open design
     * @param jobs runs its work
     */
    QuestionModel(Supplier<Optional<OpenDesign>> opened, Jobs jobs) {
        this.opened = opened;
        this.notes = jobs.notes();
        this.asking = new JobSlot(jobs, this);
        this.survey = new SurveyModel(new JobSlot(jobs, this));
        this.focus = new AnswerSelection(answer, whatIf);
    }

    /** Asks the question in the fields. A question still being answered is cancelled. */
    void ask() {
        ask(() -> {});
    }

    /**
     * Asks.
     *
     * @param then runs when there is an answer or a note why there is none
     */
    void ask(Runnable then) {
        if (opened.get().isEmpty()) {
            notes.add(this, "Open a design first (Ctrl+O), then ask.");
            return;
        }
        try {
            Question question =
                    QuestionParser.read(
                            opened.get().get(), netText.get(), padText.get(), corner.get());
            netText.set(question.net().name());
            survey.cancelUnlessFor(question);
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
            notes.dismissAbout(this);
            notes.add(this, fault);
            then.run();
        }
    }

    /** Asks about the pad of a surveyed answer. */
    void askFor(Answer surveyed) {
        padText.set(surveyed.question().padValue().name());
        netText.set(surveyed.question().net().name());
        ask();
    }

    /** Clears the results, because the design has changed. */
    private void clearResults() {
        asking.cancel();
        survey.clear();
        answer.set(Optional.empty());
        resetSelection();
    }

    private void resetSelection() {
        focus.clearHops();
        whatIf.set(Optional.empty());
        focus.optionProperty().set(0);
    }

    /** Clears everything, for another design. */
    void clear() {
        owed = false;
        clearResults();
        netText.set("");
        padText.set("");
    }

    /**
     * Asks again about a design that has changed, if there was an answer.
     *
     * @param then runs when that is done or cannot be
     */
    void askAgain(Runnable then) {
        boolean again = answer.get().isPresent();
        clearResults();
        if (again) {
            ask(then);
        } else {
            then.run();
        }
    }

    /** Asks again, if its answer is about a design that has changed since. */
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

    /** Cancels its running work. */
    void stop() {
        asking.cancel();
        survey.stop();
    }

    /** The contents of its fields. */
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

    /** The question in a few words: the last part of the net name and the pad, if given. */
    public String title() {
        String net = netText.get().strip();
        String pad = padText.get().strip();
        if (net.isEmpty() && pad.isEmpty()) {
            return "new question";
        }
        String part = net.substring(net.lastIndexOf('/') + 1);
        return (part.isEmpty() ? "…" : part) + " on " + (pad.isEmpty() ? "…" : pad);
    }

    /** Sets an answer that is known already. */
    void answered(Answer result) {
        owed = false;
        resetSelection();
        answer.set(Optional.of(result));
        survey.survey(result.question());
    }

    /**
     * Tries the answer: unblocks the route by the selected option if that is necessary, brings the
     * net out, and asks again.
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

    /** Drops the what-if; nothing is changed. */
    void drop() {
        whatIf.set(Optional.empty());
    }

    /** Tries the same again, unless something else has been asked since. */
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

    /** The selection in the answer. */
    AnswerSelection focus() {
        return focus;
    }

    /** The survey of the net. */
    SurveyModel survey() {
        return survey;
    }

    /** Text of the net field. */
    public StringProperty netTextProperty() {
        return netText;
    }

    /** Text of the pad field. */
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

    /** The what-if that waits to be kept or dropped. */
    public ObjectProperty<Optional<PendingWhatIf>> whatIfProperty() {
        return whatIf;
    }

    /** Whether it is being answered or tried out. */
    public ReadOnlyBooleanProperty busyProperty() {
        return asking.busyProperty();
    }
}
