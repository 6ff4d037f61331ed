package padward.lesson.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.UnaryOperator;
import padward.base.BadInput;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.UserFolder;
import padward.lesson.LearnerRecord;

/**
 * The folder with one progress file for each learner.
 *
 * @param folder where the files are written
 * @param earlier where earlier versions wrote them; read until there is a newer file
 */
public record LearnerFolder(Path folder, Optional<Path> earlier) {
    /** System property that names another folder than the usual one. */
    public static final String PROPERTY = "padward.learners";

    private static final int LONGEST = 80;

    /** One folder and no other. */
    public static LearnerFolder at(Path folder) {
        return new LearnerFolder(folder, Optional.empty());
    }

    /** The default folder: in the user's folder for Padward, or where the system property says. */
    public static LearnerFolder standard() {
        return standard(
                System.getProperty(PROPERTY, ""),
                UserFolder.path(),
                Path.of(System.getProperty("user.home", ".")));
    }

    /** The same, with everything that it depends on as an argument. */
    static LearnerFolder standard(String given, Path user, Path home) {
        return given.isEmpty()
                ? new LearnerFolder(
                        user.resolve("learners"),
                        Optional.of(home.resolve(".padward").resolve("learners")))
                : at(Path.of(given));
    }

    /**
     * A learner's file, whether it is there or not.
     *
     * @throws BadInput when this cannot be the name of a learner
     */
    public Path file(String learner) throws BadInput {
        return folder.resolve(fileName(learner));
    }

    /** Letters, digits, - and _ are kept; anything else becomes its hexadecimal code. */
    private static String fileName(String learner) throws BadInput {
        if (learner.isBlank()
                || learner.length() > LONGEST
                || learner.chars().anyMatch(Character::isISOControl)) {
            String expected = "a name of 1 to " + LONGEST + " printable characters";
            throw new BadInput("learner", "", expected, Text.quote(learner));
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
        return name + ".json";
    }

    /**
     * A learner's progress; none when there is no file yet.
     *
     * @throws BadInput when the file has a fault
     */
    public LearnerRecord read(String learner) throws BadInput {
        String name = fileName(learner);
        Path file = folder.resolve(name);
        if (!Files.exists(file) && earlier.isPresent()) {
            file = earlier.get().resolve(name);
        }
        return Files.exists(file)
                ? LearnerFile.read(Source.of(file))
                : LearnerRecord.of(learner.strip());
    }

    /**
     * Changes a learner's progress. The file is written completely or not at all.
     *
     * @return the changed progress
     * @throws BadInput when the old file has a fault or the new one cannot be written
     */
    public LearnerRecord change(String learner, UnaryOperator<LearnerRecord> change)
            throws BadInput {
        LearnerRecord next = change.apply(read(learner));
        try {
            Files.createDirectories(folder);
        } catch (IOException fault) {
            throw new BadInput(
                    folder.toString(), "", "a folder that can be created", fault.getMessage());
        }
        LearnerFile.write(next, file(learner));
        return next;
    }
}
