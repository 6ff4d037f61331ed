package padward.lesson.file;

import static padward.format.form.Kinds.choice;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.whole;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.form.IntKind;
import padward.format.json.FileHeader;
import padward.lesson.LearnerRecord;
import padward.lesson.LearnerRecord.Lessoned;
import padward.lesson.LearnerRecord.Score;
import padward.lesson.exercise.ExerciseKind;

/** The form of a learner's progress. */
final class LearnerFileForm {
    private static final int MOST = 1_000_000;

    private LearnerFileForm() {}

    private record OfLesson(String name, Lessoned progress) {}

    private record OfExercise(ExerciseKind kind, Score score) {}

    /** A learner's file. */
    static FileForm<LearnerRecord> learner() {
        var learner = new Fields<LearnerRecord>();
        learner.constant("format", FileHeader.LEARNER);
        var name = learner.needed("learner", name(), LearnerRecord::learner).means("who it is");
        var lessons =
                learner.needed("lessons", list(lesson()), LearnerFileForm::lessonsOf)
                        .means("by lesson");
        var exercises =
                learner.needed("exercises", list(exercise()), LearnerFileForm::exercisesOf)
                        .means("by kind of exercise");
        return learner.makesFile(
                () -> {
                    Map<String, Lessoned> byLesson = new LinkedHashMap<>();
                    lessons.get().forEach(l -> byLesson.put(l.name(), l.progress()));
                    Map<ExerciseKind, Score> byKind = new LinkedHashMap<>();
                    exercises.get().forEach(e -> byKind.put(e.kind(), e.score()));
                    return new LearnerRecord(name.get(), byLesson, byKind);
                });
    }

    private static List<OfLesson> lessonsOf(LearnerRecord learner) {
        return learner.lessons().entrySet().stream()
                .map(e -> new OfLesson(e.getKey(), e.getValue()))
                .toList();
    }

    private static List<OfExercise> exercisesOf(LearnerRecord learner) {
        return learner.exercises().entrySet().stream()
                .map(e -> new OfExercise(e.getKey(), e.getValue()))
                .toList();
    }

    private static IntKind count() {
        return whole(0, MOST);
    }

    private static Form<OfLesson> lesson() {
        var lesson = new Fields<OfLesson>();
        var name = lesson.needed("name", name(), OfLesson::name).means("name of the lesson");
        var stepsDone =
                lesson.needed("stepsDone", count(), l -> l.progress().stepsDone())
                        .means("steps done");
        var steps =
                lesson.needed("steps", count(), l -> l.progress().steps())
                        .means("steps that it has");
        var mistakes =
                lesson.needed("mistakes", count(), l -> l.progress().mistakes())
                        .means("mistakes made");
        var hints =
                lesson.needed("hints", count(), l -> l.progress().hints()).means("hints looked at");
        var solved =
                lesson.maybe("solved", name(), l -> l.progress().solved())
                        .means("date and time of its end");
        return lesson.makes(
                () ->
                        new OfLesson(
                                name.get(),
                                new Lessoned(
                                        stepsDone.get(),
                                        steps.get(),
                                        mistakes.get(),
                                        hints.get(),
                                        solved.get())));
    }

    private static Form<OfExercise> exercise() {
        var exercise = new Fields<OfExercise>();
        var kind =
                exercise.needed(
                                "kind",
                                choice(ExerciseKind.values(), ExerciseKind::label),
                                OfExercise::kind)
                        .means("kind of exercise");
        var answered =
                exercise.needed("answered", count(), e -> e.score().answered())
                        .means("how many answered");
        var right =
                exercise.needed("right", count(), e -> e.score().right())
                        .means("how many of them right");
        return exercise.makes(
                () -> new OfExercise(kind.get(), new Score(answered.get(), right.get())));
    }
}
