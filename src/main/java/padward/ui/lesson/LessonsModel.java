package padward.ui.lesson;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.base.TimeStamp;
import padward.breakout.ask.Answer;
import padward.design.Design;
import padward.fabric.delay.Corner;
import padward.lesson.LearnerRecord;
import padward.lesson.Lesson;
import padward.lesson.LessonRun;
import padward.lesson.condition.WindowState;
import padward.lesson.file.Course;
import padward.lesson.file.LearnerSummary;
import padward.ui.model.KeptChanges;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;
import padward.ui.work.JobSlot;

/**
 * The lessons, the present one, and how far the learner has come: checked whenever the state of the
 * work in the window changes. Has no controls.
 */
public final class LessonsModel {
    /** A hop counts as chosen when it stays selected this long. */
    private static final int REST_MILLIS = 700;

    private final WindowModel model;
    private final LearnerModel learner;
    private final JobSlot reading;
    private final ObjectProperty<Optional<Course>> course =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Running>> running =
            new SimpleObjectProperty<>(Optional.empty());
    private BackgroundWork.Job resting = () -> {};
    private final BooleanProperty atHand = new SimpleBooleanProperty(false);
    private final AtomicReference<Optional<Begun>> begun = new AtomicReference<>(Optional.empty());

    /** A lesson whose design has been read and will be shown next. */
    private record Begun(Course.Place place, Design design) {}

    /**
     * The lesson that the learner is doing.
     *
     * @param place the lesson
     * @param design its design, as opened
     * @param run how far the learner has come
     * @param hints number of hints shown for the present step
     * @param how whether the solution of the present step is shown
     */
    record Running(Course.Place place, Design design, LessonRun run, int hints, boolean how) {
        /** Whether the present step has a hint that is not shown yet. */
        boolean hasMoreHints() {
            return run.present().filter(s -> s.hints().size() > hints).isPresent();
        }

        /** With the help that is shown for the present step. */
        Running helped(int hintsShown, boolean howShown) {
            return new Running(place, design, run, hintsShown, howShown);
        }

        /** With the progress of a run; each step begins without help. */
        Running at(LessonRun now) {
            Running next = new Running(place, design, now, hints, how);
            return now.stepsDone() > run.stepsDone() ? next.helped(0, false) : next;
        }
    }

    /** Begins with the lessons that come with the program. */
    public LessonsModel(WindowModel model, LearnerModel learner) {
        this.model = model;
        this.learner = learner;
        this.reading = new JobSlot(model.jobs(), this);
        model.openedProperty().addListener((p, old, now) -> designShown());
        model.shown().answerProperty().addListener((p, old, now) -> check());
        model.shown().optionProperty().addListener((p, old, now) -> check());
        model.shown().selectedHopProperty().addListener((p, old, now) -> checkSoon());
        model.shown().whatIfProperty().addListener((p, old, now) -> check());
        readBuiltIn(() -> {});
    }

    private void readBuiltIn(Runnable then) {
        reading.start(
                "Reading the lessons",
                progress -> Course.builtIn(),
                read -> {
                    course.set(Optional.of(read));
                    then.run();
                });
    }

    /** Replaces the lessons by those in a folder. */
    void openCourse(Path folder) {
        reading.start(
                "Reading the lessons",
                progress -> Course.in(folder),
                read -> {
                    running.set(Optional.empty());
                    course.set(Optional.of(read));
                });
    }

    /** Begins a lesson: opens its design. */
    void begin(Course.Place place) {
        model.openLesson(
                progress -> {
                    Design design = place.design(progress);
                    begun.set(Optional.of(new Begun(place, design)));
                    return design;
                });
    }

    /** Begins the first lesson; reads the lessons again if they are not there. */
    public void beginFirst() {
        if (course.get().isEmpty()) {
            // What follows goes with the reading: when that fails, nothing is left waiting.
            readBuiltIn(this::beginFirst);
        } else {
            course.get().get().places().stream().findFirst().ifPresent(this::begin);
        }
    }

    /** Begins the present lesson again. */
    void beginAgain() {
        running.get().ifPresent(r -> begin(r.place()));
    }

    /** A lesson's number, and of how many where the numbers count the lessons. */
    String numbered(Lesson lesson) {
        List<Lesson> all = course.get().map(Course::lessons).orElse(List.of());
        boolean counts = all.indexOf(lesson) + 1 == lesson.number();
        return "Lesson " + lesson.number() + (counts ? " of " + all.size() : "");
    }

    /** The lesson after the present one. */
    Optional<Course.Place> next() {
        List<Course.Place> all = course.get().map(Course::places).orElse(List.of());
        int at = running.get().map(r -> all.indexOf(r.place())).orElse(-1);
        return at >= 0 && at + 1 < all.size() ? Optional.of(all.get(at + 1)) : Optional.empty();
    }

    /** While a lesson's design is open: the name of what was open before, if something was. */
    Optional<String> findLeftWork() {
        return model.findLeftWork();
    }

    /** Leaves the lesson, and opens what was open before it, when nothing is lost by it. */
    void returnToWork() {
        model.returnToWork(this::leave);
    }

    /** Leaves the lesson; its design stays open. */
    void leave() {
        running.set(Optional.empty());
    }

    private void designShown() {
        Optional<Design> original = model.keptProperty().get().map(KeptChanges::original);
        Optional<Begun> waits =
                begun.get().filter(b -> original.filter(o -> o == b.design()).isPresent());
        if (waits.isPresent()) {
            begun.set(Optional.empty());
            model.shown().cornerProperty().set(Corner.SLOW);
            LessonRun run =
                    LessonRun.begin(
                            waits.get().place().lesson(), WindowState.opened(original.get()));
            running.set(
                    Optional.of(new Running(waits.get().place(), original.get(), run, 0, false)));
            save(run, 0, 0);
        }
        atHand.set(isAtHand());
        check();
    }

    private boolean isAtHand() {
        Optional<Design> original = model.keptProperty().get().map(KeptChanges::original);
        return running.get()
                .filter(r -> original.filter(o -> o == r.design()).isPresent())
                .isPresent();
    }

    private void check() {
        if (!isAtHand()) {
            return;
        }
        Running before = running.get().orElseThrow();
        LessonRun after = before.run().at(state());
        if (after.equals(before.run())) {
            return;
        }
        boolean further = after.stepsDone() > before.run().stepsDone();
        running.set(Optional.of(before.at(after)));
        int mistakes = after.mistakes() - before.run().mistakes();
        if (further || mistakes > 0) {
            save(after, mistakes, 0);
        }
    }

    /**
     * Stepping along the strip map passes hops that are not meant, so only the one that stays
     * selected counts.
     */
    private void checkSoon() {
        resting.cancel();
        resting = model.jobs().background().after(REST_MILLIS, this::check);
    }

    private WindowState state() {
        Design design = model.openedProperty().get().orElseThrow().design();
        KeptChanges kept = model.keptProperty().get().orElseThrow();
        Optional<Answer> answer = model.shown().answerProperty().get();
        return new WindowState(
                kept.original(),
                design,
                answer,
                model.shown().chosenOption(),
                model.shown().route(),
                model.shown().selectedHopProperty().get(),
                model.shown()
                        .whatIfProperty()
                        .get()
                        .map(t -> new WindowState.Tried(t.edits(), t.after())),
                kept.entries());
    }

    private void save(LessonRun run, int mistakes, int hints) {
        String now = TimeStamp.now();
        learner.update(old -> old.with(run, mistakes, hints, now));
    }

    /** Shows one more hint for the present step. */
    void hint() {
        running.get()
                .filter(Running::hasMoreHints)
                .ifPresent(r -> help(r.helped(r.hints() + 1, r.how())));
    }

    /** Shows how the present step is done. */
    void showHow() {
        running.get()
                .filter(r -> !r.how() && !r.run().isSolved())
                .ifPresent(r -> help(r.helped(r.hints(), true)));
    }

    private void help(Running helped) {
        running.set(Optional.of(helped));
        save(helped.run(), 0, 1);
    }

    /** Deletes the learner's progress. */
    void forget() {
        learner.update(old -> LearnerRecord.of(old.learner()));
    }

    /** Writes the learner's progress: a page if the name ends in .html, else plain text. */
    void writeSummary(Path file) {
        List<Lesson> lessons = course.get().map(Course::lessons).orElse(List.of());
        LearnerRecord record = learner.recordProperty().get();
        reading.start(
                "Writing " + file.getFileName(),
                progress -> {
                    LearnerSummary.write(file, record, lessons);
                    return file;
                },
                written -> model.notes().done("Wrote " + written + "."));
    }

    /** Whether the open design is that of the present lesson. */
    ReadOnlyBooleanProperty atHandProperty() {
        return atHand;
    }

    /** The window's model. */
    WindowModel window() {
        return model;
    }

    LearnerModel learner() {
        return learner;
    }

    ReadOnlyObjectProperty<Optional<Course>> courseProperty() {
        return course;
    }

    ReadOnlyObjectProperty<Optional<Running>> runningProperty() {
        return running;
    }
}
