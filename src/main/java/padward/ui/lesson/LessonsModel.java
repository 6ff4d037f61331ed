package padward.ui.lesson;

import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.breakout.ask.Answer;
import padward.design.Design;
import padward.fabric.Corner;
import padward.lesson.LearnerRecord;
import padward.lesson.Lesson;
import padward.lesson.LessonRun;
import padward.lesson.condition.WindowState;
import padward.lesson.file.Course;
import padward.lesson.file.LearnerSummary;
import padward.ui.model.ExplorerModel;
import padward.ui.model.KeptChanges;
import padward.ui.work.Background;
import padward.ui.work.OneJob;

/**
 * The lessons, the one that is being done, and how far the learner is: found out from the state of
 * the window's work whenever that changes. No control.
 */
public final class LessonsModel {
    /** A hop that is looked at for so long is chosen. */
    private static final int REST_MILLIS = 700;

    private final ExplorerModel model;
    private final LearnerModel learner;
    private final OneJob reading;
    private final ObjectProperty<Optional<Course>> course =
            new SimpleObjectProperty<>(Optional.empty());
    private final ObjectProperty<Optional<Running>> running =
            new SimpleObjectProperty<>(Optional.empty());
    private Background.Job resting = () -> {};
    private final BooleanProperty atHand = new SimpleBooleanProperty(false);
    private final AtomicReference<Optional<Begun>> begun = new AtomicReference<>(Optional.empty());

    /** A lesson whose design has been read and is about to be shown. */
    private record Begun(Course.Place place, Design design) {}

    /**
     * A lesson that is being done.
     *
     * @param place the lesson
     * @param design its design, as it was opened
     * @param run how far it is done
     * @param hints how many hints of the present step are shown
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

        /** As far as it is done now; each step begins without help. */
        Running at(LessonRun now) {
            Running next = new Running(place, design, now, hints, how);
            return now.stepsDone() > run.stepsDone() ? next.helped(0, false) : next;
        }
    }

    /** The lessons that come with the program; marked by what is done in the window. */
    public LessonsModel(ExplorerModel model, LearnerModel learner) {
        this.model = model;
        this.learner = learner;
        this.reading = new OneJob(model.jobs(), this);
        model.openedProperty().addListener((p, old, now) -> designShown());
        model.shown().answerProperty().addListener((p, old, now) -> look());
        model.shown().optionProperty().addListener((p, old, now) -> look());
        model.shown().selectedHopProperty().addListener((p, old, now) -> lookSoon());
        model.shown().whatIfProperty().addListener((p, old, now) -> look());
        reading.start(
                "Reading the lessons",
                progress -> Course.builtIn(),
                read -> course.set(Optional.of(read)));
    }

    /** Reads a course of one's own in place of the present one. */
    void openCourse(Path folder) {
        reading.start(
                "Reading the lessons",
                progress -> Course.in(folder),
                read -> {
                    running.set(Optional.empty());
                    course.set(Optional.of(read));
                });
    }

    /** Begins a lesson: opens its design afresh. */
    void begin(Course.Place place) {
        model.openFrom(
                progress -> {
                    Design design = place.design(progress);
                    begun.set(Optional.of(new Begun(place, design)));
                    return design;
                });
    }

    /** Begins the lesson that is being done again, or the next one. */
    void beginAgain() {
        running.get().ifPresent(r -> begin(r.place()));
    }

    /** The lesson after the one that is being done. */
    Optional<Course.Place> next() {
        List<Course.Place> all = course.get().map(Course::places).orElse(List.of());
        int at = running.get().map(r -> all.indexOf(r.place())).orElse(-1);
        return at >= 0 && at + 1 < all.size() ? Optional.of(all.get(at + 1)) : Optional.empty();
    }

    /** Leaves the lesson; what was opened stays open. */
    void leave() {
        running.set(Optional.empty());
    }

    private void designShown() {
        Optional<Design> original = model.deskProperty().get().map(KeptChanges::original);
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
            remember(run, 0, 0);
        }
        atHand.set(isAtHand());
        look();
    }

    private boolean isAtHand() {
        Optional<Design> original = model.deskProperty().get().map(KeptChanges::original);
        return running.get()
                .filter(r -> original.filter(o -> o == r.design()).isPresent())
                .isPresent();
    }

    private void look() {
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
            remember(after, mistakes, 0);
        }
    }

    /**
     * Who walks along the strip map passes hops that are not meant: only where one rests counts.
     */
    private void lookSoon() {
        resting.cancel();
        resting = model.jobs().background().after(REST_MILLIS, this::look);
    }

    private WindowState state() {
        Design design = model.openedProperty().get().orElseThrow().design();
        KeptChanges desk = model.deskProperty().get().orElseThrow();
        Optional<Answer> answer = model.shown().answerProperty().get();
        return new WindowState(
                desk.original(),
                design,
                answer,
                model.shown().chosenOption(),
                model.shown().route(),
                model.shown().selectedHopProperty().get(),
                model.shown()
                        .whatIfProperty()
                        .get()
                        .map(t -> new WindowState.Tried(t.edits(), t.after())),
                desk.kept().stream()
                        .map(k -> new WindowState.Kept(k.net(), k.pad(), k.edits()))
                        .toList());
    }

    private void remember(LessonRun run, int mistakes, int hints) {
        String now = OffsetDateTime.now().truncatedTo(ChronoUnit.SECONDS).toString();
        learner.remember(old -> old.with(run, mistakes, hints, now));
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
        remember(helped.run(), 0, 1);
    }

    /** Forgets what the learner has done. */
    void forget() {
        learner.remember(old -> LearnerRecord.of(old.learner()));
    }

    /** Writes what the learner has done: a page, or plain text when the name does not say .html. */
    void writeSummary(Path file) {
        List<Lesson> lessons = course.get().map(Course::lessons).orElse(List.of());
        LearnerRecord record = learner.recordProperty().get();
        reading.start(
                "Writing " + file.getFileName(),
                progress -> {
                    LearnerSummary.write(file, record, lessons);
                    return file;
                },
                written -> model.notes().tell(this, "Wrote " + written + "."));
    }

    /** Whether the design of the lesson that is being done is the one that is open. */
    ReadOnlyBooleanProperty atHandProperty() {
        return atHand;
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
