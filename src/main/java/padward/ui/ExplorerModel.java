package padward.ui;

import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
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
import padward.format.DesignReader;
import padward.route.Engine;

/**
 * What the window knows: the design with the trials kept on it, the question, the answer and what
 * is looked at of it, the survey of the net, a trial that waits to be kept or dropped, a note. No
 * control, no canvas.
 */
public final class ExplorerModel {
    private final Background background;
    private final ObjectProperty<Optional<Opened>> opened =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Answer>> answer =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Integer>> selectedHop =
            new SimpleObjectProperty<>(Optional.empty());
    private final StringProperty netText = new SimpleStringProperty("");
    private final StringProperty padText = new SimpleStringProperty("");
    private final ObjectProperty<Corner> corner = new SimpleObjectProperty<>(Corner.SLOW);
    private final StringProperty note = new SimpleStringProperty("");
    private final BooleanProperty busy = new SimpleBooleanProperty(false);
    private final ObjectProperty<Optional<Survey>> survey =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Answer>> preview =
            new SimpleObjectProperty<>(Optional.empty());
    private final IntegerProperty option = new SimpleIntegerProperty(0);
    private final ObjectProperty<Optional<TriedOut>> trial =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<TrialDesk>> desk =
            new SimpleObjectProperty<>(Optional.empty());
    private Optional<Path> file = Optional.empty();
    private Background.Job running = () -> {};
    private Background.Job surveying = () -> {};

    /**
     * A trial that has been tried out, and waits to be kept or dropped.
     *
     * @param edits its edits
     * @param before the answer without it
     * @param after the answer with it
     * @param design the design with it
     */
    public record TriedOut(List<Edit> edits, Answer before, Answer after, Opened design) {}

    ExplorerModel(Background background) {
        this.background = background;
    }

    /** Opens a design's file in place of the present one, which stays if the file is at fault. */
    public void open(Path file) {
        start(
                progress -> new Opened(DesignReader.read(file, progress)),
                read -> {
                    show(read);
                    this.file = Optional.of(file);
                });
    }

    /** Opens what a reader yields. */
    void openFrom(Background.Work<Design> reader) {
        start(progress -> new Opened(reader.run(progress)), this::show);
    }

    private void show(Opened next) {
        file = Optional.empty();
        desk.set(Optional.of(TrialDesk.of(next.design())));
        changeTo(next);
        netText.set("");
        padText.set("");
    }

    /** Shows another state of things; what was found out about the last one is put away. */
    private void changeTo(Opened next) {
        surveying.cancel();
        survey.set(Optional.empty());
        answer.set(Optional.empty());
        selectedHop.set(Optional.empty());
        preview.set(Optional.empty());
        trial.set(Optional.empty());
        option.set(0);
        opened.set(Optional.of(next));
    }

    /** Asks the question that the fields state. A question still being answered is given up. */
    public void ask() {
        if (opened.get().isEmpty()) {
            note.set("Open a design first (Ctrl+O), then ask.");
            return;
        }
        try {
            Question question =
                    QuestionText.read(
                            opened.get().get(), netText.get(), padText.get(), corner.get());
            netText.set(question.net().name());
            boolean sameNet = survey.get().filter(s -> s.net() == question.net()).isPresent();
            if (!sameNet) {
                surveying.cancel();
            }
            start(progress -> Asker.ask(question, progress), this::answered);
        } catch (BadInput fault) {
            answer.set(Optional.empty());
            note.set(fault.getMessage());
        }
    }

    private void answered(Answer result) {
        selectedHop.set(Optional.empty());
        preview.set(Optional.empty());
        trial.set(Optional.empty());
        option.set(0);
        answer.set(Optional.of(result));
        startSurvey(result.question());
    }

    /** Surveys the net of a question, unless that has been done. */
    private void startSurvey(Question question) {
        boolean same =
                survey.get()
                        .filter(s -> s.net() == question.net() && s.corner() == question.corner())
                        .isPresent();
        if (same) {
            return;
        }
        surveying.cancel();
        survey.set(Optional.empty());
        surveying =
                background.start(
                        progress ->
                                Survey.of(
                                        question.design(),
                                        question.net(),
                                        question.corner(),
                                        Engine.OWN,
                                        progress),
                        result -> survey.set(Optional.of(result)),
                        fault -> note.set(plain(fault)));
    }

    /** Lists the nets that a text means, away from the UI thread. */
    Background.Job listNets(
            String text, boolean expression, Consumer<NetTree> done, Consumer<Exception> failed) {
        Optional<Opened> now = opened.get();
        if (now.isEmpty()) {
            return () -> {};
        }
        return background.start(
                progress ->
                        NetTree.of(
                                now.get().design(),
                                now.get().outlets(),
                                NetTree.test(text, expression)),
                done,
                failed);
    }

    /** Asks for the pad of a surveyed answer. */
    public void askFor(Answer surveyed) {
        padText.set(surveyed.question().padValue().name());
        netText.set(surveyed.question().net().name());
        ask();
    }

    /** The clearances of the present answer. */
    public List<WhyBlocked.Option> options() {
        return answer.get()
                .flatMap(a -> a instanceof Answer.Blocked b ? b.why() : Optional.empty())
                .map(WhyBlocked::options)
                .orElse(List.of());
    }

    /** The clearance that is looked at. */
    public Optional<WhyBlocked.Option> chosenOption() {
        List<WhyBlocked.Option> all = options();
        return option.get() < all.size() ? Optional.of(all.get(option.get())) : Optional.empty();
    }

    /**
     * Tries out the answer: makes room by the clearance that is looked at, if it takes one, brings
     * the net out, and asks again.
     */
    public void tryIt() {
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
            List<Edit> tried = edits;
            start(progress -> tryOut(before, tried, progress), t -> trial.set(Optional.of(t)));
        }
    }

    /** Whether the net is on the pad already, so that there is nothing to bring out. */
    static boolean isThere(Answer.Open open) {
        return open.way().branchHop() == open.way().hops().size() - 1;
    }

    private static TriedOut tryOut(Answer before, List<Edit> edits, Progress progress) {
        Question question = before.question();
        Design design = Trial.of(question.design(), edits);
        Net net = design.findNet(question.net().name()).orElseThrow();
        Answer after =
                Asker.ask(new Question(design, net, question.pad(), question.corner()), progress);
        return new TriedOut(edits, before, after, new Opened(design));
    }

    /** Keeps the trial: the design is shown with it from now on. */
    public void keep() {
        TriedOut tried = trial.get().orElseThrow();
        Question question = tried.before().question();
        TrialDesk.Kept kept =
                new TrialDesk.Kept(
                        OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString(),
                        question.net().name(),
                        question.padValue().name(),
                        tried.edits());
        desk.set(desk.get().map(d -> d.keeping(kept)));
        changeTo(tried.design());
        answered(tried.after());
    }

    /** Writes all that is kept into a ledger for the opened file. */
    public void saveLedger(Path ledger) {
        if (desk.get().isEmpty() || file.isEmpty()) {
            note.set("Only a design that was opened from a file can have a ledger.");
            return;
        }
        TrialDesk now = desk.get().get();
        Path design = file.get();
        start(
                progress -> now.save(ledger, design),
                written ->
                        note.set("Saved " + written.entries().size() + " kept in " + ledger + "."));
    }

    /** Shows the opened design with what a ledger holds. */
    public void openLedger(Path ledger) {
        if (desk.get().isEmpty()) {
            note.set("Open a design first (Ctrl+O), then its ledger.");
            return;
        }
        Design original = desk.get().get().original();
        start(
                progress -> {
                    TrialDesk next = TrialDesk.open(ledger, original, progress);
                    return new Loaded(next, new Opened(next.design()));
                },
                loaded -> {
                    desk.set(Optional.of(loaded.desk()));
                    changeTo(loaded.opened());
                });
    }

    private record Loaded(TrialDesk desk, Opened opened) {}

    /** Drops the trial; all is as it was. */
    public void drop() {
        trial.set(Optional.empty());
    }

    /** Takes the last kept trial back. */
    public void undo() {
        desk.get().filter(TrialDesk::canUndo).ifPresent(d -> changeDesk(d.undo()));
    }

    /** Keeps again what was undone last. */
    public void redo() {
        desk.get().filter(TrialDesk::canRedo).ifPresent(d -> changeDesk(d.redo()));
    }

    private void changeDesk(TrialDesk next) {
        boolean again = answer.get().isPresent();
        start(
                progress -> new Opened(next.design()),
                result -> {
                    desk.set(Optional.of(next));
                    changeTo(result);
                    if (again) {
                        ask();
                    }
                });
    }

    /** Stops what is running. */
    public void cancel() {
        running.cancel();
        busy.set(false);
    }

    private <T> void start(Background.Work<T> work, Consumer<T> then) {
        running.cancel();
        note.set("");
        busy.set(true);
        running =
                background.start(
                        work,
                        result -> {
                            busy.set(false);
                            then.accept(result);
                        },
                        fault -> {
                            busy.set(false);
                            note.set(plain(fault));
                        });
    }

    private static String plain(Exception fault) {
        return fault instanceof BadInput
                ? fault.getMessage()
                : "Something went wrong in Padward itself: " + fault;
    }

    /** The way of the present answer: of the clearance that is looked at, if there is one. */
    Optional<Way> way() {
        Optional<Way> tried = trial.get().flatMap(t -> wayOf(t.after()));
        if (tried.isPresent()) {
            return tried;
        }
        Optional<Way> chosen = chosenOption().map(WhyBlocked.Option::way);
        return chosen.isPresent() ? chosen : answer.get().flatMap(ExplorerModel::wayOf);
    }

    /** What stands on that way. */
    List<Obstacle> obstacles() {
        if (trial.get().isPresent()) {
            return List.of();
        }
        return chosenOption()
                .map(WhyBlocked.Option::obstacles)
                .orElseGet(
                        () ->
                                answer.get().orElse(null) instanceof Answer.Blocked blocked
                                        ? blocked.obstacles()
                                        : List.of());
    }

    /** The way of an answer, if it has one. */
    static Optional<Way> wayOf(Answer answer) {
        if (answer instanceof Answer.Open open) {
            return Optional.of(open.way());
        }
        return answer instanceof Answer.Blocked blocked
                ? Optional.of(blocked.way())
                : Optional.empty();
    }

    /** All pads for the present net, once they are surveyed. */
    public ReadOnlyObjectProperty<Optional<Survey>> surveyProperty() {
        return survey;
    }

    /** A surveyed answer that the pointer rests on; its way is shown beside the present one. */
    public ObjectProperty<Optional<Answer>> previewProperty() {
        return preview;
    }

    /** Index of the clearance that is looked at. */
    public IntegerProperty optionProperty() {
        return option;
    }

    /** The trial that waits to be kept or dropped. */
    public ReadOnlyObjectProperty<Optional<TriedOut>> trialProperty() {
        return trial;
    }

    /** The opened design and the trials kept on it. */
    public ReadOnlyObjectProperty<Optional<TrialDesk>> deskProperty() {
        return desk;
    }

    ReadOnlyObjectProperty<Optional<Opened>> openedProperty() {
        return opened;
    }

    /** The present answer. */
    public ReadOnlyObjectProperty<Optional<Answer>> answerProperty() {
        return answer;
    }

    /** Index of the hop that is selected in the way. */
    ObjectProperty<Optional<Integer>> selectedHopProperty() {
        return selectedHop;
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
    public ObjectProperty<Corner> cornerProperty() {
        return corner;
    }

    /** A message about something that did not work; empty when all is well. */
    public StringProperty noteProperty() {
        return note;
    }

    /** Whether work is going on. */
    public BooleanProperty busyProperty() {
        return busy;
    }
}
