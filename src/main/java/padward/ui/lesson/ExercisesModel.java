package padward.ui.lesson;

import java.util.Optional;
import java.util.Random;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.base.BadInput;
import padward.lesson.exercise.Difficulty;
import padward.lesson.exercise.Exercise;
import padward.lesson.exercise.ExerciseKind;
import padward.lesson.exercise.ExerciseMaker;
import padward.ui.design.OpenDesign;
import padward.ui.model.WindowModel;
import padward.ui.work.JobSlot;

/** Random questions about the open design, and the verdicts on the answers. Has no controls. */
public final class ExercisesModel {
    private static final int SEEDS = 1_000_000;

    private final WindowModel model;
    private final LearnerModel learner;
    private final JobSlot making;
    private final Random random = new Random();
    private final ObjectProperty<ExerciseKind> kind = new SimpleObjectProperty<>(ExerciseKind.SITE);
    private final ObjectProperty<Difficulty> difficulty =
            new SimpleObjectProperty<>(Difficulty.EASY);
    private final ObjectProperty<Optional<Exercise>> exercise =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Exercise.Mark>> mark =
            new SimpleObjectProperty<>(Optional.empty());

    private String answered = "";

    /** Asks about the open design and records the results for this learner. */
    public ExercisesModel(WindowModel model, LearnerModel learner) {
        this.model = model;
        this.learner = learner;
        this.making = new JobSlot(model.jobs(), this);
        model.openedProperty().addListener((p, old, now) -> putAway());
    }

    private void putAway() {
        making.cancel();
        mark.set(Optional.empty());
        exercise.set(Optional.empty());
    }

    /** Asks a new question. */
    void ask() {
        ask(random.nextInt(SEEDS));
    }

    /** Asks the question of a seed. */
    void ask(long seed) {
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            model.notes().add(this, "Open a design first (Ctrl+O): the exercises ask about it.");
            return;
        }
        putAway();
        ExerciseKind asked = kind.get();
        Difficulty hard = difficulty.get();
        making.start(
                "Making an exercise",
                progress ->
                        new ExerciseMaker(opened.get().design()).make(asked, hard, seed, progress),
                made -> {
                    exercise.set(made);
                    if (made.isEmpty()) {
                        model.notes()
                                .add(
                                        this,
                                        "No question of this kind can be made for this design. Try"
                                                + " another kind, or an easier one.");
                    }
                });
    }

    /** Marks an answer; only the first one counts. */
    void answer(String text) {
        if (exercise.get().isEmpty() || mark.get().isPresent()) {
            return;
        }
        try {
            Exercise asked = exercise.get().get();
            Exercise.Mark given = asked.mark(text, "answer");
            model.notes().dismissAbout(this);
            answered = text;
            mark.set(Optional.of(given));
            learner.update(old -> old.with(asked.kind(), given.right()));
        } catch (BadInput fault) {
            model.notes().add(this, fault);
        }
    }

    /** The answer that was marked. */
    String answered() {
        return answered;
    }

    LearnerModel learner() {
        return learner;
    }

    ObjectProperty<ExerciseKind> kindProperty() {
        return kind;
    }

    ObjectProperty<Difficulty> difficultyProperty() {
        return difficulty;
    }

    ReadOnlyObjectProperty<Optional<Exercise>> exerciseProperty() {
        return exercise;
    }

    ReadOnlyObjectProperty<Optional<Exercise.Mark>> markProperty() {
        return mark;
    }
}
