package padward.ui.model;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import padward.fabric.Corner;
import padward.ui.design.OpenDesign;
import padward.ui.work.History;
import padward.ui.work.Jobs;

/** The open questions, at least one, and which of them is shown. */
public final class QuestionsModel {
    private final Supplier<Optional<OpenDesign>> opened;
    private final Jobs jobs;
    private final History history;
    private final ObservableList<QuestionModel> all = FXCollections.observableArrayList();

    /** A field, because the view gets changes only while something references it. */
    private final ObservableList<QuestionModel> allView =
            FXCollections.unmodifiableObservableList(all);

    private final ObjectProperty<QuestionModel> shown = new SimpleObjectProperty<>();

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
     * @param opened supplies the open design
     * @param jobs runs the work
     * @param history records closed questions
     */
    QuestionsModel(Supplier<Optional<OpenDesign>> opened, Jobs jobs, History history) {
        this.opened = opened;
        this.jobs = jobs;
        this.history = history;
        all.add(new QuestionModel(opened, jobs));
        shown.set(all.get(0));
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
        QuestionModel more = new QuestionModel(opened, jobs);
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
            return;
        }
        remove(question);
        history.did(
                new History.Step(
                        "closing " + question.title(),
                        () -> {
                            insert(Math.min(index, all.size()), question);
                            question.askAgainIfOld();
                        },
                        () -> remove(question)));
    }

    private void remove(QuestionModel question) {
        int index = all.indexOf(question);
        if (index < 0 || all.size() == 1) {
            return;
        }
        question.stop();
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
            QuestionModel question = new QuestionModel(opened, jobs);
            question.state(one);
            questions.add(question);
        }
        all.forEach(QuestionModel::clear);
        all.addAll(questions);
        shown.set(questions.get(Math.max(0, Math.min(questions.size() - 1, show))));
        all.retainAll(questions);
        List<QuestionModel> asked = new ArrayList<>();
        for (int i = 0; i < stated.size(); i++) {
            if (stated.get(i).asked()) {
                asked.add(questions.get(i));
            }
        }
        asked.remove(shown.get());
        Runnable others =
                () -> {
                    then.run();
                    inTurn(asked, QuestionModel::ask);
                };
        if (stated.get(questions.indexOf(shown.get())).asked()) {
            shown.get().ask(others);
        } else {
            others.run();
        }
    }

    /** Asks all answered questions again, one after the other, the shown one first. */
    void askAgain() {
        QuestionModel first = shown.get();
        // A what-if that is just being kept has no answer any more: nothing of it is lost.
        long whatIfs =
                all.stream()
                        .filter(q -> q.whatIfProperty().get().isPresent())
                        .filter(q -> q.answerProperty().get().isPresent())
                        .count();
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
        List<QuestionModel> order = new ArrayList<>(List.of(first));
        all.stream().filter(q -> q != first).forEach(order::add);
        inTurn(order, QuestionModel::askAgain);
    }

    /** Asks one question, then continues. */
    private interface Turn {
        void take(QuestionModel question, Runnable then);
    }

    private static void inTurn(List<QuestionModel> rest, Turn turn) {
        if (!rest.isEmpty()) {
            turn.take(rest.get(0), () -> inTurn(rest.subList(1, rest.size()), turn));
        }
    }
}
