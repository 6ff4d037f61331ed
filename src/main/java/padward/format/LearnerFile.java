package padward.format;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.function.UnaryOperator;
import padward.base.BadInput;
import padward.base.Progress;
import padward.lesson.ExerciseKind;
import padward.lesson.LearnerRecord;

/** What learners have done, a file for each in one folder. */
public final class LearnerFile {
    /** The folder, when another one is to be used than that in the user's home. */
    public static final String FOLDER_PROPERTY = "padward.learners";

    private static final int MOST = 1_000_000;
    private static final Shape LESSON =
            Shape.of("name!", "stepsDone!", "steps!", "mistakes!", "hints!", "solved");
    private static final Shape EXERCISE = Shape.of("kind!", "answered!", "right!");

    private LearnerFile() {}

    /** The folder where learners' files are kept when nothing else is said. */
    public static Path usualFolder() {
        String given = System.getProperty(FOLDER_PROPERTY, "");
        return given.isEmpty()
                ? Path.of(System.getProperty("user.home", "."), ".padward", "learners")
                : Path.of(given);
    }

    /** A learner's file in a folder. Letters, digits, - and _ stand as they are. */
    public static Path in(Path folder, String learner) throws BadInput {
        if (learner.isBlank() || learner.length() > 80) {
            throw new BadInput("learner", "", "a name of 1 to 80 characters", "“" + learner + "”");
        }
        StringBuilder name = new StringBuilder();
        learner.strip()
                .codePoints()
                .forEach(
                        c -> {
                            boolean plain =
                                    c < 128
                                            && (Character.isLetterOrDigit(c)
                                                    || c == '-'
                                                    || c == '_');
                            name.append(
                                    plain ? Character.toString(c) : "." + Integer.toHexString(c));
                        });
        return folder.resolve(name + ".json");
    }

    /**
     * What a learner has done; nothing when there is no file yet.
     *
     * @throws BadInput when the file has a fault
     */
    public static LearnerRecord read(Path folder, String learner) throws BadInput {
        Path file = in(folder, learner);
        return Files.exists(file) ? read(Source.of(file)) : LearnerRecord.of(learner.strip());
    }

    /** Reads one file. */
    static LearnerRecord read(Source source) throws BadInput {
        Head.expect(source, Head.LEARNER);
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

    /**
     * Changes what is remembered of a learner. The file is written as a whole or not at all.
     *
     * @return what is remembered now
     * @throws BadInput when the old file has a fault, or the new one cannot be written
     */
    public static LearnerRecord change(
            Path folder, String learner, UnaryOperator<LearnerRecord> change) throws BadInput {
        LearnerRecord next = change.apply(read(folder, learner));
        try {
            Files.createDirectories(folder);
        } catch (IOException fault) {
            throw new BadInput(
                    folder.toString(), "", "a folder that can be made", fault.getMessage());
        }
        JsonOut.write(in(folder, learner), out -> write(next, out));
        return next;
    }

    private static void write(LearnerRecord learner, JsonWriter out) throws IOException {
        out.beginObject();
        out.name("format").value(Head.LEARNER);
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
