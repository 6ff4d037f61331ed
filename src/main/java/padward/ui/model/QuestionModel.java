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
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.Asker;
import padward.breakout.Keeping;
import padward.breakout.Obstacle;
import padward.breakout.Question;
import padward.breakout.Survey;
import padward.breakout.Way;
import padward.breakout.WhyBlocked;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.Trial;
import padward.fabric.Corner;
import padward.route.Engine;
import padward.ui.scene.Opened;

/**
 * One question: its net, pad and corner, the answer and what is looked at of it, the survey of its
 * net, a trial that waits to be kept or dropped.
 */
public final class QuestionModel {
    private final Supplier<Optional<Opened>> opened;
    private final Notes notes;
    private final OneJob asking;
    private final OneJob surveying;
    private final StringProperty netText = new SimpleStringProperty("");
    private final StringProperty padText = new SimpleStringProperty("");
    private final ObjectProperty<Corner> corner = new SimpleObjectProperty<>(Corner.SLOW);
    private final ObjectProperty<Optional<Answer>> answer =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Integer>> selectedHop =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Survey>> survey =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Answer>> preview =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Integer> option = new SimpleObjectProperty<>(0);
    private final ObjectProperty<Optional<TriedOut>> trial =
            new SimpleObjectProperty<>(Optional.empty());

    /**
     * A trial that has been tried out, and waits to be kept or dropped.
     *
     * @param edits its edits
     * @param before the answer without it
     * @param after the answer with it
     * @param design the design with it
     */
    public record TriedOut(List<Edit> edits, Answer before, Answer after, Opened design) {}

    /**
     * @param opened the design that is asked about, whichever it is at the time
     * @param jobs where its work runs
     */
    QuestionModel(Supplier<Optional<Opened>> opened, Jobs jobs) {
        this.opened = opened;
        this.notes = jobs.notes();
        this.asking = new OneJob(jobs, this);
        this.surveying = new OneJob(jobs, this);
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
            if (!isSurveyed(question)) {
                surveying.cancel();
            }
            asking.start(
                    "Asking",
                    progress -> Asker.ask(question, progress),
                    result -> {
                        answered(result);
                        then.run();
                    });
        } catch (BadInput fault) {
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
        surveying.cancel();
        survey.set(Optional.empty());
        answer.set(Optional.empty());
        lookAfresh();
    }

    private void lookAfresh() {
        selectedHop.set(Optional.empty());
        preview.set(Optional.empty());
        trial.set(Optional.empty());
        option.set(0);
    }

    /** Forgets everything, for another design. */
    void clear() {
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

    private static boolean isAbout(Answer answer, Opened opened) {
        return answer.question().design() == opened.design();
    }

    /** Gives up the work that goes on for it. */
    void stop() {
        asking.cancel();
        surveying.cancel();
    }

    /** What it states. */
    QuestionsModel.Stated stated() {
        return new QuestionsModel.Stated(
                netText.get(), padText.get(), corner.get(), answer.get().isPresent());
    }

    /** Fills the fields. */
    void state(QuestionsModel.Stated stated) {
        netText.set(stated.net());
        padText.set(stated.pad());
        corner.set(stated.corner());
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
        lookAfresh();
        answer.set(Optional.of(result));
        survey(result.question());
    }

    private boolean isSurveyed(Question question) {
        return survey.get()
                .filter(s -> s.net() == question.net() && s.corner() == question.corner())
                .isPresent();
    }

    /** Surveys the net of a question, unless that has been done. */
    private void survey(Question question) {
        if (isSurveyed(question)) {
            return;
        }
        survey.set(Optional.empty());
        surveying.start(
                "Surveying all pads",
                progress ->
                        Survey.of(
                                question.design(),
                                question.net(),
                                question.corner(),
                                Engine.OWN,
                                progress),
                result -> survey.set(Optional.of(result)));
    }

    /**
     * Tries out the answer: makes room by the clearance that is looked at, if it takes one, brings
     * the net out, and asks again.
     */
    void tryIt() {
        if (answer.get().isEmpty() || trial.get().isPresent()) {
            return;
        }
        Answer before = answer.get().get();
        List<Edit> edits = List.of();
        if (before instanceof Answer.Open open && !isThere(open)) {
            edits = Keeping.of(open);
        } else if (before instanceof Answer.Blocked blocked && chosenOption().isPresent()) {
            edits = Keeping.of(blocked, chosenOption().get());
        }
        if (!edits.isEmpty()) {
            start(before, edits);
        }
    }

    private static TriedOut tryOut(
            Opened shown, Answer before, List<Edit> edits, Progress progress) {
        Question question = before.question();
        Design design = Trial.of(question.design(), edits);
        Net net = design.findNet(question.net().name()).orElseThrow();
        Answer after =
                Asker.ask(new Question(design, net, question.pad(), question.corner()), progress);
        return new TriedOut(edits, before, after, shown.with(design));
    }

    /** Drops the trial; all is as it was. */
    void drop() {
        trial.set(Optional.empty());
    }

    /** Tries the same once more, unless something else has been asked since. */
    void tryAgain(Answer before, List<Edit> edits) {
        if (answer.get().filter(a -> a == before).isPresent()) {
            start(before, edits);
        }
    }

    private void start(Answer before, List<Edit> edits) {
        Opened now = opened.get().orElseThrow();
        asking.start(
                "Trying it out",
                progress -> tryOut(now, before, edits, progress),
                t -> trial.set(Optional.of(t)));
    }

    /** Whether the net is on the pad already, so that there is nothing to bring out. */
    public static boolean isThere(Answer.Open open) {
        return open.way().branchHop() == open.way().hops().size() - 1;
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
        Optional<Way> tried = trial.get().flatMap(t -> wayOf(t.after()));
        if (tried.isPresent()) {
            return tried;
        }
        Optional<Way> chosen = chosenOption().map(WhyBlocked.Option::way);
        return chosen.isPresent() ? chosen : answer.get().flatMap(QuestionModel::wayOf);
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

    /** The way of an answer, if it has one. */
    public static Optional<Way> wayOf(Answer answer) {
        if (answer instanceof Answer.Open open) {
            return Optional.of(open.way());
        }
        return answer instanceof Answer.Blocked blocked
                ? Optional.of(blocked.way())
                : Optional.empty();
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

    /** Index of the hop that is selected in the way. */
    ObjectProperty<Optional<Integer>> selectedHopProperty() {
        return selectedHop;
    }

    /** All pads for the net, once they are surveyed. */
    ObjectProperty<Optional<Survey>> surveyProperty() {
        return survey;
    }

    /** A surveyed answer that the pointer rests on. */
    ObjectProperty<Optional<Answer>> previewProperty() {
        return preview;
    }

    /** Index of the clearance that is looked at. */
    ObjectProperty<Integer> optionProperty() {
        return option;
    }

    /** The trial that waits to be kept or dropped. */
    public ObjectProperty<Optional<TriedOut>> trialProperty() {
        return trial;
    }

    /** Whether it is being answered or tried out. */
    public ReadOnlyBooleanProperty busyProperty() {
        return asking.busyProperty();
    }
}
