package padward.base;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.OptionalLong;
import java.util.UUID;

/**
 * Names next to a file or folder for what stands there only while it is replaced. No two are the
 * same: in containers every program can have the same process number, and what a killed one left
 * behind would be mixed with the work of the next.
 */
public enum TemporaryName {
    /** What is not written completely yet; of no use to anyone else. */
    PART,
    /** What stood there before, until the new is in place. */
    OLD,
    /** What was written completely and could not be put in place. */
    NEW;

    private static final int RANDOM_DIGITS = 12;

    private String ending() {
        return switch (this) {
            case PART -> ".part";
            case OLD -> ".old";
            case NEW -> ".new";
        };
    }

    /** A name that nothing has: that of the target, the process, a random number, the ending. */
    public Path nextTo(Path target) {
        return with(
                target, UUID.randomUUID().toString().replace("-", "").substring(0, RANDOM_DIGITS));
    }

    /**
     * The same with a number of the system's instead of a random one, which tells later what it
     * belongs to; random where the system gives none.
     */
    public Path nextTo(Path target, OptionalLong number) {
        return number.isPresent() ? with(target, digits(number.getAsLong())) : nextTo(target);
    }

    /** What stands next to a target under names with that number. */
    public List<Path> findAll(Path target, long number) {
        String end = "-" + digits(number) + ending();
        return findAll(target).stream().filter(p -> p.toString().endsWith(end)).toList();
    }

    private static String digits(long number) {
        String all = String.format(Locale.ROOT, "%016x", number);
        return all.substring(all.length() - RANDOM_DIGITS);
    }

    private Path with(Path target, String random) {
        return target.resolveSibling(
                target.getFileName()
                        + "."
                        + ProcessHandle.current().pid()
                        + "-"
                        + random
                        + ending());
    }

    /** What stands next to a target under such names, sorted. */
    public List<Path> findAll(Path target) {
        String start = target.getFileName() + ".";
        String rest = "\\d{1,10}-[0-9a-f]{" + RANDOM_DIGITS + "}\\" + ending();
        List<Path> found = new ArrayList<>();
        DirectoryStream.Filter<Path> filter =
                path -> {
                    String name = path.getFileName().toString();
                    return name.startsWith(start) && name.substring(start.length()).matches(rest);
                };
        Path folder = target.toAbsolutePath().getParent();
        try (DirectoryStream<Path> all = Files.newDirectoryStream(folder, filter)) {
            all.forEach(found::add);
        } catch (IOException | DirectoryIteratorException unreadable) {
            return List.of();
        }
        found.sort(null);
        return found;
    }
}
