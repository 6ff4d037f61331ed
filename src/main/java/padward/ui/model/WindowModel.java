package padward.ui.model;

import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import javafx.beans.binding.Bindings;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.beans.value.ObservableValue;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Question;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.format.ledger.EntrySigning;
import padward.ui.design.OpenDesign;
import padward.ui.work.BackgroundWork;
import padward.ui.work.History;
import padward.ui.work.Jobs;
import padward.ui.work.Notes;

/**
 * The model of the whole window, made of the models of its parts: the design, the questions, the
 * notes, the running work, the look. No control, no canvas.
 */
public final class WindowModel {
    private final Notes notes = new Notes();
    private final History history = new History();
    private final AppearanceModel look = new AppearanceModel();
    private final RecentItems recentFiles = new RecentItems(10);
    private final RecentItems recentNets = new RecentItems(30);
    private final RecentItems recentPads = new RecentItems(30);
    private final StringProperty groupNets = new SimpleStringProperty("");
    private final StringProperty groupPads = new SimpleStringProperty("any");
    private final ObjectProperty<Double> leadMetres = new SimpleObjectProperty<>(0.0);
    private final Jobs jobs;
    private final DesignStore design;
    private final QuestionsModel questions;
    private final ShownQuestion shown;
    private final BooleanProperty busy = new SimpleBooleanProperty(false);
    private final ObjectProperty<Optional<Session.Place>> requestedPlace =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<String>> requestedName =
            new SimpleObjectProperty<>(Optional.empty());
    private Optional<Design> original = Optional.empty();
    private Optional<LeftWork> leftWork = Optional.empty();
    private Consent consent = (question, yes, then) -> then.run();

    /** A model that saves no changes for the next session. */
    public WindowModel(BackgroundWork background) {
        this(background, KeptChangeStore.NONE);
    }

    /** Nothing open; kept changes are saved to the store. */
    public WindowModel(BackgroundWork background, KeptChangeStore store) {
        this.jobs = new Jobs(background, notes);
        this.design = new DesignStore(jobs, history, store);
        this.questions = new QuestionsModel(design::state, jobs, history);
        this.shown = new ShownQuestion(questions.shownProperty());
        ObservableValue<Boolean> asking =
                questions.shownProperty().flatMap(QuestionModel::busyProperty);
        busy.bind(
                Bindings.createBooleanBinding(
                        () -> asking.getValue() || design.busyProperty().get(),
                        asking,
                        design.busyProperty()));
        design.openedProperty().addListener((p, old, now) -> designChanged());
        design.fileProperty()
                .addListener(
                        (p, old, now) ->
                                now.ifPresent(f -> recentFiles.add(f.toAbsolutePath().toString())));
        shown.answerProperty()
                .addListener((p, old, now) -> now.map(Answer::question).ifPresent(this::asked));
    }

    private void asked(Question question) {
        recentNets.add(question.net().name());
        recentPads.add(shown.padTextProperty().get().strip());
    }

    /** Runs before any view is notified of the design. */
    private void designChanged() {
        Optional<Design> now = design.keptProperty().get().map(KeptChanges::original);
        if (now.equals(original)) {
            questions.openChanged();
        } else {
            original = now;
            questions.reset();
        }
    }

    /** The design that is open. */
    public DesignStore design() {
        return design;
    }

    /** The questions that are open. */
    public QuestionsModel questions() {
        return questions;
    }

    /** The question that is shown, whichever that is. */
    public ShownQuestion shown() {
        return shown;
    }

    /** Messages to the user. */
    public Notes notes() {
        return notes;
    }

    /** What can be undone. */
    public History history() {
        return history;
    }

    /** The running work. */
    public Jobs jobs() {
        return jobs;
    }

    /** Theme and other looks. */
    public AppearanceModel look() {
        return look;
    }

    /** Designs that were opened. */
    public RecentItems recentFiles() {
        return recentFiles;
    }

    /** Nets that were asked for. */
    public RecentItems recentNets() {
        return recentNets;
    }

    /** Pads that were asked for, as they were named. */
    public RecentItems recentPads() {
        return recentPads;
    }

    /**
     * Opens another design file, when nothing is lost by it; if that is at fault, the present
     * design stays open.
     */
    public void open(Path file) {
        afterConsent(() -> design.open(file));
    }

    /** Offers to read the open file again, if something else has written it. */
    public void lookForChange() {
        design.lookForChange(this::open);
    }

    /** Opens a design or a ledger, whichever a file is, when nothing is lost by it. */
    public void openAny(Path file) {
        afterConsent(() -> design.openAny(file));
    }

    /** Shows the opened design with what a ledger contains, when nothing is lost by it. */
    public void openLedger(Path ledger) {
        afterConsent(() -> design.openLedger(ledger));
    }

    /** Opens the demo, when nothing is lost by it. */
    public void openDemo() {
        afterConsent(design::openDemo);
    }

    /** Opens the design of a lesson that a reader returns, when nothing is lost by it. */
    public void openLesson(BackgroundWork.Work<Design> reader) {
        afterConsent(
                () -> {
                    if (!design.isLesson()) {
                        leftWork =
                                design.state()
                                        .map(
                                                s ->
                                                        new LeftWork(
                                                                s.origin(),
                                                                questions.stated(),
                                                                questions
                                                                        .all()
                                                                        .indexOf(
                                                                                shown.question())));
                    }
                    design.openLesson(reader);
                });
    }

    /**
     * What a lesson was begun over.
     *
     * @param origin where its design came from
     * @param questions the questions that were open
     * @param shown index of the one that was shown
     */
    private record LeftWork(
            WorkState.Origin origin, List<QuestionsModel.Stated> questions, int shown) {}

    /** While a lesson's design is open: the name of what was open before, if something was. */
    public Optional<String> findLeftWork() {
        return leftWork.filter(w -> design.isLesson())
                .map(
                        w ->
                                w.origin()
                                        .file()
                                        .map(f -> f.getFileName().toString())
                                        .orElse("the demo"));
    }

    /**
     * Opens again what was open before the lesson, with its questions and what was kept, when
     * nothing is lost by it.
     *
     * @param agreed runs before that, unless the user stays
     */
    public void returnToWork(Runnable agreed) {
        if (findLeftWork().isEmpty()) {
            return;
        }
        LeftWork work = leftWork.orElseThrow();
        afterConsent(
                () -> {
                    agreed.run();
                    design.reopen(
                            work.origin(),
                            () -> questions.restore(work.questions(), work.shown(), () -> {}));
                });
    }

    /** Asks the user a question before something goes on. */
    public interface Consent {
        /**
         * @param question what will be lost
         * @param yes what the button says that accepts it
         * @param then what goes on if it is accepted
         */
        void ask(String question, String yes, Runnable then);
    }

    /** Who asks the user; without one, everything is accepted. */
    public void askThrough(Consent asker) {
        consent = asker;
    }

    /** Goes on with the writing of a file; where there is one already, only if the user agrees. */
    public void afterReplacing(Path file, boolean exists, Runnable then) {
        if (exists) {
            consent.ask("There is a file " + file + " already.", "Replace it", then);
        } else {
            then.run();
        }
    }

    /** A what-if that is neither kept nor dropped would be gone without a word. */
    private void afterConsent(Runnable then) {
        long pending = questions.pendingWhatIfs();
        if (pending == 0) {
            then.run();
        } else {
            consent.ask(
                    (pending == 1
                                    ? "A what-if is neither kept nor dropped."
                                    : pending + " what-ifs are neither kept nor dropped.")
                            + " Opening something else drops "
                            + (pending == 1 ? "it." : "them."),
                    "Drop and open",
                    then);
        }
    }

    /** Drops the what-if; nothing is changed. */
    public void drop() {
        QuestionModel asked = shown.question();
        Optional<PendingWhatIf> tried = asked.whatIfProperty().get();
        if (tried.isEmpty()) {
            return;
        }
        List<Edit> edits = tried.get().edits();
        QuestionModel.Asked about = asked.askedProperty().get().orElseThrow();
        asked.drop();
        history.did(
                new History.Step(
                        "dropping the what-if", () -> asked.tryAgain(about, edits), asked::drop));
    }

    /**
     * Keeps the what-if: the design is shown with it from now on. Not while the fields say
     * something else than was asked.
     */
    public void keep() {
        QuestionModel asked = shown.question();
        if (asked.whatIfProperty().get().isEmpty() || !asked.asAskedProperty().get()) {
            return;
        }
        PendingWhatIf tried = asked.whatIfProperty().get().get();
        if (!shown.isAccepted()) {
            notes.add(this, "Not kept: first tick “" + PriceText.acceptance(tried.price()) + "”");
            return;
        }
        Question question = tried.before().question();
        LedgerEntry entry =
                EntrySigning.unsigned(
                                question.net().name(), question.padValue().name(), tried.edits())
                        .accepting(PriceText.words(tried.price().toAccept()));
        asked.drop();
        if (design.keep(tried.version(), entry, tried.design())) {
            // Its answer is known: it need not be asked again like the others.
            asked.show(tried.after());
        }
    }

    /** Undoes the last step. */
    public void undo() {
        history.undo();
    }

    /** Redoes the step that was undone last. */
    public void redo() {
        history.redo();
    }

    /** Stops all work. */
    public void cancel() {
        jobs.cancelAll();
    }

    /** The nets of the group, as they are typed. */
    public StringProperty groupNetsProperty() {
        return groupNets;
    }

    /** The pads that the group may use, as they are typed. */
    public StringProperty groupPadsProperty() {
        return groupPads;
    }

    /** A part of the map to show; the map goes there and clears this. */
    public ObjectProperty<Optional<Session.Place>> requestedPlaceProperty() {
        return requestedPlace;
    }

    /** Shows on the map what has a name: a net, cell, pad, site, wire or tile. */
    public void showOnMap(String name) {
        requestedName.set(Optional.of(name));
    }

    /** A name to show on the map; the map goes there and clears this. */
    public ObjectProperty<Optional<String>> requestedNameProperty() {
        return requestedName;
    }

    /**
     * Length of the leads to the instrument, metres, for lines whose leads have none of their own;
     * 0 when it is not stated.
     */
    public ObjectProperty<Double> leadMetresProperty() {
        return leadMetres;
    }

    /** Adds nets to those that are typed for the group, each once. */
    public void addToGroup(List<String> nets) {
        Set<String> all = new LinkedHashSet<>();
        for (String typed : groupNets.get().split(",")) {
            all.add(typed.strip());
        }
        all.addAll(nets);
        all.remove("");
        groupNets.set(String.join(", ", all));
    }

    /** The design that is open, with what is kept; empty until the first one is read. */
    public ReadOnlyObjectProperty<Optional<OpenDesign>> openedProperty() {
        return design.openedProperty();
    }

    /** The opened design and its kept changes. */
    public ReadOnlyObjectProperty<Optional<KeptChanges>> keptProperty() {
        return design.keptProperty();
    }

    /** Whether the design or the shown question has running work. */
    public ReadOnlyBooleanProperty busyProperty() {
        return busy;
    }
}
