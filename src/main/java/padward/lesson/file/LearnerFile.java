package padward.lesson.file;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.json.FileHeader;
import padward.format.json.JsonIn;
import padward.format.json.JsonOut;
import padward.format.json.Members;
import padward.format.json.Passes;
import padward.format.json.Shape;
import padward.format.source.Source;
import padward.lesson.LearnerRecord;
import padward.lesson.exercise.ExerciseKind;

/** Reads and writes the progress of one learner. */
public final class LearnerFile {
    private static final int MOST = 1_000_000;
    private static final Shape LESSON =
            Shape.of("name!", "stepsDone!", "steps!", "mistakes!", "hints!", "solved");
    private static final Shape EXERCISE = Shape.of("kind!", "answered!", "right!");

    private LearnerFile() {}

    /**
     * Reads one file.
     *
     * @throws BadInput when it has a fault
     */
    public static LearnerRecord read(Source source) throws BadInput {
        FileHeader.expect(source, FileHeader.LEARNER);
        String[] learner = {""};
        Map<String, LearnerRecord.Lessoned> lessons = new LinkedHashMap<>();
        Map<ExerciseKind, LearnerRecord.Score> exercises = new LinkedHashMap<>();
        new Passes()
                .part("format!", JsonIn::skip)
                .part("learner!", in -> learner[0] = in.name())
                .part("lessons!", in -> in.list(each -> readLesson(each, lessons)))
                .part("exercises!", in -> in.list(each -> readExercise(each, exercises)))
                .run(source, Progress.NONE);
        return new LearnerRecord(learner[0], lessons, exercises);
    }

    private static String readLesson(JsonIn in, Map<String, LearnerRecord.Lessoned> into)
            throws BadInput {
        String name = "";
        int stepsDone = 0;
        int steps = 0;
        int mistakes = 0;
        int hints = 0;
        Optional<String> solved = Optional.empty();
        Members member = in.object(LESSON);
        while (member.next()) {
            switch (member.name()) {
                case "name" -> name = in.name();
                case "stepsDone" -> stepsDone = in.integer(0, MOST);
                case "steps" -> steps = in.integer(0, MOST);
                case "mistakes" -> mistakes = in.integer(0, MOST);
                case "hints" -> hints = in.integer(0, MOST);
                default -> solved = Optional.of(in.name());
            }
        }
        into.put(name, new LearnerRecord.Lessoned(stepsDone, steps, mistakes, hints, solved));
        return name;
    }

    private static ExerciseKind readExercise(JsonIn in, Map<ExerciseKind, LearnerRecord.Score> into)
            throws BadInput {
        ExerciseKind kind = ExerciseKind.SITE;
        int answered = 0;
        int right = 0;
        Members member = in.object(EXERCISE);
        while (member.next()) {
            switch (member.name()) {
                case "kind" -> kind = in.oneOf(ExerciseKind.values(), ExerciseKind::label);
                case "answered" -> answered = in.integer(0, MOST);
                default -> right = in.integer(0, MOST);
            }
        }
        into.put(kind, new LearnerRecord.Score(answered, right));
        return kind;
    }

    /** Writes one file, as a whole or not at all. */
    public static void write(LearnerRecord learner, Path file) throws BadInput {
        JsonOut.write(file, out -> write(learner, out));
    }

    private static void write(LearnerRecord learner, JsonWriter out) throws IOException {
        out.beginObject();
        out.name("format").value(FileHeader.LEARNER);
        out.name("learner").value(learner.learner());
        out.name("lessons").beginArray();
        for (Map.Entry<String, LearnerRecord.Lessoned> entry : learner.lessons().entrySet()) {
            LearnerRecord.Lessoned lesson = entry.getValue();
            out.beginObject();
            out.name("name").value(entry.getKey());
            out.name("stepsDone").value(lesson.stepsDone());
            out.name("steps").value(lesson.steps());
            out.name("mistakes").value(lesson.mistakes());
            out.name("hints").value(lesson.hints());
            JsonOut.optional(out, "solved", lesson.solved().orElse(""));
            out.endObject();
        }
        out.endArray();
        out.name("exercises").beginArray();
        for (Map.Entry<ExerciseKind, LearnerRecord.Score> entry : learner.exercises().entrySet()) {
            out.beginObject();
            out.name("kind").value(entry.getKey().label());
            out.name("answered").value(entry.getValue().answered());
            out.name("right").value(entry.getValue().right());
            out.endObject();
        }
        out.endArray();
        out.endObject();
    }
}
