package padward.lesson.file;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.locks.LockSupport;
import java.util.function.IntPredicate;
import java.util.function.UnaryOperator;
import padward.base.BadInput;
import padward.base.OwnerLock;
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

    /** Two seconds in all. */
    private static final int TRIES = 200;

    private static final long PAUSE_NANOS = 10_000_000;

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

    /**
     * Small letters, digits, - and _ are kept; anything else becomes its hexadecimal code between
     * full stops. No two names are one, also where capitals do not matter.
     */
    private static String fileName(String learner) throws BadInput {
        check(learner);
        return encoded(learner, LearnerFolder::isPlain, ".");
    }

    /**
     * @param isKept which characters stay; any other becomes a full stop and its hexadecimal code
     * @param end what follows a code
     */
    private static String encoded(String learner, IntPredicate isKept, String end) {
        StringBuilder name = new StringBuilder();
        learner.strip()
                .codePoints()
                .forEach(
                        c ->
                                name.append(
                                        isKept.test(c)
                                                ? Character.toString(c)
                                                : "." + Integer.toHexString(c) + end));
        return name + ".json";
    }

    private static void check(String learner) throws BadInput {
        if (learner.isBlank()
                || learner.length() > LONGEST
                || learner.chars().anyMatch(Character::isISOControl)) {
            String expected = "a name of 1 to " + LONGEST + " printable characters";
            throw new BadInput("learner", "", expected, Text.quote(learner));
        }
    }

    private static boolean isPlain(int c) {
        return c >= 'a' && c <= 'z' || c >= '0' && c <= '9' || c == '-' || c == '_';
    }

    /** The name that earlier versions gave: capitals were kept, codes had no end. */
    private static String earlierFileName(String learner) {
        return encoded(learner, c -> isPlain(c) || c >= 'A' && c <= 'Z', "");
    }

    /**
     * A learner's progress; none when there is no file yet.
     *
     * @throws BadInput when the file has a fault, or is another learner's
     */
    public LearnerRecord read(String learner) throws BadInput {
        String name = learner.strip();
        Path file = file(learner);
        if (Files.exists(file)) {
            LearnerRecord record = LearnerFile.read(Source.of(file));
            if (!record.learner().equals(name)) {
                throw new BadInput(
                        file.toString(),
                        "$.learner",
                        Text.quote(name),
                        Text.quote(record.learner()) + ", whose progress is left as it is");
            }
            return record;
        }
        List<Path> older = new ArrayList<>(List.of(folder.resolve(earlierFileName(learner))));
        earlier.ifPresent(e -> older.add(e.resolve(earlierFileName(learner))));
        for (Path other : older) {
            if (Files.exists(other)) {
                LearnerRecord record = LearnerFile.read(Source.of(other));
                if (record.learner().equals(name)) {
                    return record;
                }
            }
        }
        return LearnerRecord.of(name);
    }

    /**
     * Changes a learner's progress. The file is written completely or not at all, and no change is
     * lost that another window makes at the same time.
     *
     * @return the changed progress
     * @throws BadInput when the old file has a fault or the new one cannot be written
     */
    @SuppressWarnings("try") // The resource is only to be closed.
    public LearnerRecord change(String learner, UnaryOperator<LearnerRecord> change)
            throws BadInput {
        Path file = file(learner);
        try {
            Files.createDirectories(folder);
        } catch (IOException fault) {
            throw new BadInput(
                    folder.toString(), "", "a folder that can be created", fault.getMessage());
        }
        try (OwnerLock lock = lock(file)) {
            LearnerRecord next = change.apply(read(learner));
            LearnerFile.write(next, file);
            return next;
        }
    }

    /** Others have it for a moment only. */
    private static OwnerLock lock(Path file) throws BadInput {
        for (int i = 0; i < TRIES; i++) {
            Optional<OwnerLock> lock = OwnerLock.tryTake(file);
            if (lock.isPresent()) {
                return lock.get();
            }
            LockSupport.parkNanos(PAUSE_NANOS);
        }
        return OwnerLock.take(file, "a learner's progress that no one else is changing");
    }
}
