package padward.ui.model;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.Stream;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.value.ChangeListener;
import javafx.beans.value.ObservableValue;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import padward.breakout.ask.Answer;
import padward.change.Edit;
import padward.fabric.delay.Corner;
import padward.ui.work.History;
import padward.ui.work.Jobs;

/** The open questions, at least one, and which of them is shown. */
public final class QuestionsModel {
    private final Supplier<Optional<WorkState>> open;
    private final Jobs jobs;
    private final History history;
    private final ObservableList<QuestionModel> all = FXCollections.observableArrayList();

    /** A field, because the view gets changes only while something references it. */
    private final ObservableList<QuestionModel> allView =
            FXCollections.unmodifiableObservableList(all);

    private final ObjectProperty<QuestionModel> shown = new SimpleObjectProperty<>();

    /** Those asked since what is open changed. */
    private final Set<QuestionModel> asked = new HashSet<>();

    /** Number of the round of asking again; a new one ends the one before. */
    private int round;

    /** How often the user had stopped all work when the round began. */
    private int stops;

    /**
     * The contents of a question.
     *
     * @param net text of the net's field
     * @param pad text of the pad's field
     * @param corner the corner
     * @param asked whether it had been asked
     */
    record Stated(String net, String pad, Corner corner, boolean asked) {}

    /**
     * @param open supplies what is open
     * @param jobs runs the work
     * @param history records closed questions
     */
    QuestionsModel(Supplier<Optional<WorkState>> open, Jobs jobs, History history) {
        this.open = open;
        this.jobs = jobs;
        this.history = history;
        all.add(new QuestionModel(open, jobs));
        shown.set(all.get(0));
        shown.addListener((p, old, now) -> askIfOwed(now));
    }

    /** All open questions, in the order of their tabs. */
    public ObservableList<QuestionModel> all() {
        return allView;
    }

    /** The one that is shown. */
    public ReadOnlyObjectProperty<QuestionModel> shownProperty() {
        return shown;
    }

    /** Shows one of them. */
    public void show(QuestionModel question) {
        if (!all.contains(question)) {
            throw new IllegalArgumentException("not an open question");
        }
        shown.set(question);
    }

    /** Shows the question so many tabs to the right; wraps around at the ends. */
    public void step(int by) {
        shown.set(all.get(Math.floorMod(all.indexOf(shown.get()) + by, all.size())));
    }

    /**
     * Opens another question to the right of the shown one, and shows it.
     *
     * @param net text of its net field
     */
    public void open(String net) {
        QuestionModel before = shown.get();
        QuestionModel more = new QuestionModel(open, jobs);
        more.netTextProperty().set(net);
        more.cornerProperty().set(before.cornerProperty().get());
        insert(all.indexOf(before) + 1, more);
    }

    private void insert(int index, QuestionModel question) {
        all.add(index, question);
        shown.set(question);
    }

    /** Closes one; Undo brings it back. The last one is cleared instead. */
    public void close(QuestionModel question) {
        int index = all.indexOf(question);
        if (index < 0) {
            return;
        }
        if (all.size() == 1) {
            question.clear();
            jobs.notes().dismissAbout(question);
            return;
        }
        List<Edit> tried =
                question.whatIfProperty().get().map(PendingWhatIf::edits).orElse(List.of());
        remove(question);
        history.did(
                new History.Step(
                        "closing " + question.title(),
                        () -> bringBack(Math.min(index, all.size()), question, tried),
                        () -> remove(question)));
    }

    /** A closed question comes back without its results: it is asked and tried again. */
    private void bringBack(int index, QuestionModel question, List<Edit> tried) {
        insert(index, question);
        Optional<QuestionModel.Asked> asked = question.askedProperty().get();
        if (tried.isEmpty() || asked.isEmpty()) {
            return;
        }
        ChangeListener<Optional<Answer>> once =
                new ChangeListener<>() {
                    @Override
                    public void changed(
                            ObservableValue<? extends Optional<Answer>> p,
                            Optional<Answer> old,
                            Optional<Answer> now) {
                        question.answerProperty().removeListener(this);
                        question.tryAgain(asked.get(), tried);
                    }
                };
        question.answerProperty().addListener(once);
    }

    private void remove(QuestionModel question) {
        int index = all.indexOf(question);
        if (index < 0 || all.size() == 1) {
            return;
        }
        question.forgetAnswer();
        jobs.notes().dismissAbout(question);
        if (shown.get() == question) {
            shown.set(all.get(index == 0 ? 1 : index - 1));
        }
        all.remove(question);
    }

    /** Closes all but an empty one, for another design. */
    void reset() {
        QuestionModel first = all.get(0);
        shown.set(first);
        all.forEach(QuestionModel::clear);
        all.retainAll(List.of(first));
    }

    /** The contents of all questions. */
    List<Stated> stated() {
        return all.stream().map(QuestionModel::stated).toList();
    }

    /**
     * Replaces the open questions, and asks those that had been asked.
     *
     * @param show index of the one to show
     * @param then runs when that one has been asked
     */
    void restore(List<Stated> stated, int show, Runnable then) {
        if (stated.isEmpty()) {
            then.run();
            return;
        }
        List<QuestionModel> questions = new ArrayList<>();
        for (Stated one : stated) {
            QuestionModel question = new QuestionModel(open, jobs);
            question.state(one);
            questions.add(question);
        }
        all.forEach(QuestionModel::clear);
        all.addAll(questions);
        shown.set(questions.get(Math.max(0, Math.min(questions.size() - 1, show))));
        all.retainAll(questions);
        int now = beginRound();
        QuestionModel first = shown.get();
        if (first.isOwed()) {
            ask(
                    first,
                    () -> {
                        then.run();
                        askOwed(now);
                    });
        } else {
            then.run();
            askOwed(now);
        }
    }

    private int beginRound() {
        asked.clear();
        stops = jobs.stops();
        return ++round;
    }

    /** Asks the owed questions one at a time, the shown one first. */
    private void askOwed(int inRound) {
        if (inRound != round || stops != jobs.stops()) {
            return;
        }
        Stream.concat(Stream.of(shown.get()), all.stream())
                .filter(q -> q.isOwed() && !asked.contains(q) && !q.busyProperty().get())
                .findFirst()
                .ifPresent(q -> ask(q, () -> askOwed(inRound)));
    }

    /**
     * Asks an owed question.
     *
     * @param ended what follows when it was answered, failed, or was stopped
     */
    private void ask(QuestionModel question, Runnable ended) {
        asked.add(question);
        question.askOwed();
        if (!question.busyProperty().get()) {
            ended.run();
            return;
        }
        question.busyProperty()
                .addListener(
                        new ChangeListener<>() {
                            @Override
                            public void changed(
                                    ObservableValue<? extends Boolean> p,
                                    Boolean old,
                                    Boolean now) {
                                question.busyProperty().removeListener(this);
                                ended.run();
                            }
                        });
    }

    /** A question that was not answered for what is open now, say because the user stopped it. */
    private static void askIfOwed(QuestionModel question) {
        if (!question.busyProperty().get()) {
            question.askOwed();
        }
    }

    /** How many questions have a what-if that is neither kept nor dropped. */
    long pendingWhatIfs() {
        return all.stream().filter(q -> q.whatIfProperty().get().isPresent()).count();
    }

    /** What is open has changed: all answers go, and their questions are asked again. */
    void openChanged() {
        long whatIfs = pendingWhatIfs();
        if (whatIfs > 0) {
            jobs.notes()
                    .add(
                            this,
                            whatIfs == 1
                                    ? "The design has changed, so the what-if was dropped: try it"
                                            + " again."
                                    : "The design has changed, so "
                                            + whatIfs
                                            + " what-ifs were dropped: try them again.");
        }
        int now = beginRound();
        all.forEach(QuestionModel::forgetAnswer);
        askOwed(now);
    }
}
