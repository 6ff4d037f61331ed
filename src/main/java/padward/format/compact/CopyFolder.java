package padward.format.compact;

import java.io.IOException;
import java.nio.file.DirectoryIteratorException;
import java.nio.file.DirectoryStream;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.ReadOnlyFileSystemException;
import java.nio.file.attribute.BasicFileAttributes;
import java.nio.file.attribute.FileTime;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * The folder of compact copies. Everything in it can be deleted at any time; files of other names
 * are left alone.
 *
 * @param path where it is; it need not exist yet
 */
public record CopyFolder(Path path) {
    /** Environment variable that names another folder, or turns copies off. */
    public static final String VARIABLE = "PADWARD_CACHE";

    /** What it says to turn them off. */
    public static final String OFF = "off";

    /** System property that does the same. */
    static final String PROPERTY = "padward.cache";

    /** Most bytes of all copies together. */
    static final long MOST_BYTES = 1L << 30;

    /** Of earlier ones, too, which did not state the length of what they are a copy of. */
    private static final String NAME = "[0-9a-f]{64}(-\\d{1,19})?-\\d{1,9}\\.(fabric|design)";

    /** What a program left that was stopped while it wrote. */
    private static final String LEFT = NAME + "\\.\\d{1,10}-[0-9a-f]{12}\\.part";

    private static final Duration SURELY_LEFT = Duration.ofDays(1);

    /**
     * A file in it.
     *
     * @param path its name
     * @param bytes its size
     * @param used when it was last read or written
     */
    public record Entry(Path path, long bytes, FileTime used) {}

    /** The user's folder; empty when copies are turned off. */
    public static Optional<CopyFolder> find() {
        return find(
                Optional.ofNullable(System.getProperty(PROPERTY))
                        .or(() -> Optional.ofNullable(System.getenv(VARIABLE))),
                Optional.ofNullable(System.getProperty("padward.settings")),
                System.getProperty("os.name", ""),
                System.getProperty("user.home", "."),
                System.getenv());
    }

    /**
     * The same, from what it depends on: on Linux the folder that the XDG Base Directory
     * Specification 0.8 says ({@code $XDG_CACHE_HOME}, {@code ~/.cache} when it is unset or not
     * absolute), on Windows {@code %LOCALAPPDATA%}, on macOS {@code ~/Library/Caches}; the last two
     * are common practice.
     *
     * @param given a folder, {@link #OFF} or nothing
     * @param settings a folder for everything of the user's, where one is given
     */
    static Optional<CopyFolder> find(
            Optional<String> given,
            Optional<String> settings,
            String system,
            String home,
            Map<String, String> environment) {
        String stated = given.orElse("");
        try {
            if (stated.equalsIgnoreCase(OFF)) {
                return Optional.empty();
            }
            if (!stated.isBlank()) {
                return Optional.of(new CopyFolder(Path.of(stated)));
            }
            Path base =
                    settings.isPresent()
                            ? Path.of(settings.get())
                            : usual(system.toLowerCase(Locale.ROOT), home, environment);
            return Optional.of(new CopyFolder(base.resolve("copies")));
        } catch (InvalidPathException noFolder) {
            return Optional.empty(); // it is for speed only
        }
    }

    private static Path usual(String system, String home, Map<String, String> environment) {
        if (system.startsWith("windows")) {
            return Path.of(environment.getOrDefault("LOCALAPPDATA", home)).resolve("Padward");
        }
        if (system.startsWith("mac")) {
            return Path.of(home, "Library", "Caches", "Padward");
        }
        String configured = environment.getOrDefault("XDG_CACHE_HOME", "");
        Path base = configured.startsWith("/") ? Path.of(configured) : Path.of(home, ".cache");
        return base.resolve("padward");
    }

    /** The name of a copy of a sort, by the digest and the length of what it is a copy of. */
    Path copy(String digest, long length, CopySort sort) {
        return path.resolve(digest + ending(length, sort));
    }

    private static String ending(long length, CopySort sort) {
        return "-" + length + "-" + sort.layout() + "." + sort.ending();
    }

    /**
     * The copy of a sort that was used last, of those of what has a length: nearly always that of
     * the file of this length that is asked for.
     */
    Optional<Path> likely(long length, CopySort sort) {
        String ending = ending(length, sort);
        Optional<Entry> latest = Optional.empty();
        // each file is only asked for its name; every reading of a large file comes here
        try (DirectoryStream<Path> all = Files.newDirectoryStream(path)) {
            for (Path each : all) {
                if (each.getFileName().toString().endsWith(ending)) {
                    latest = later(latest, describe(each));
                }
            }
        } catch (IOException | DirectoryIteratorException unreadable) {
            return Optional.empty();
        }
        return latest.map(Entry::path);
    }

    private static Optional<Entry> later(Optional<Entry> one, Optional<Entry> other) {
        boolean isLater =
                other.isPresent()
                        && (one.isEmpty() || one.get().used().compareTo(other.get().used()) < 0);
        return isLater ? other : one;
    }

    /** Makes the folder, for the user alone. */
    void make() throws IOException {
        if (Files.isDirectory(path)) {
            return;
        }
        if (FileSystems.getDefault().supportedFileAttributeViews().contains("posix")) {
            Files.createDirectories(
                    path,
                    PosixFilePermissions.asFileAttribute(
                            PosixFilePermissions.fromString("rwx------")));
        } else {
            Files.createDirectories(path);
        }
    }

    /** The copies, the one that was used last first; none when the folder cannot be read. */
    public List<Entry> copies() {
        return entries(NAME);
    }

    private List<Entry> entries(String names) {
        List<Entry> found = new ArrayList<>();
        DirectoryStream.Filter<Path> filter = p -> p.getFileName().toString().matches(names);
        try (DirectoryStream<Path> all = Files.newDirectoryStream(path, filter)) {
            for (Path each : all) {
                describe(each).ifPresent(found::add);
            }
        } catch (IOException | DirectoryIteratorException unreadable) {
            return List.of();
        }
        found.sort(Comparator.comparing(Entry::used).reversed().thenComparing(e -> "" + e.path()));
        return found;
    }

    private static Optional<Entry> describe(Path file) {
        try {
            BasicFileAttributes of = Files.readAttributes(file, BasicFileAttributes.class);
            return of.isRegularFile()
                    ? Optional.of(new Entry(file, of.size(), of.lastModifiedTime()))
                    : Optional.empty();
        } catch (IOException gone) {
            return Optional.empty(); // another program removed it
        }
    }

    /** Notes that a copy is used now, where that is possible: it may be in a read-only folder. */
    static void setUsed(Path copy) {
        try {
            Files.setLastModifiedTime(copy, FileTime.from(Instant.now()));
        } catch (IOException | ReadOnlyFileSystemException notPossible) {
            // it is read all the same
        }
    }

    /** Removes those that were not used for longest, until the rest is within a limit. */
    void limitTo(long mostBytes) {
        long sum = 0;
        for (Entry copy : copies()) {
            sum += copy.bytes();
            if (sum > mostBytes) {
                remove(copy);
            }
        }
        Instant old = Instant.now().minus(SURELY_LEFT);
        entries(LEFT).stream()
                .filter(e -> e.used().toInstant().isBefore(old))
                .forEach(CopyFolder::remove);
    }

    /** Removes all copies; how many could be. */
    public int clear() {
        int removed = 0;
        for (Entry copy : copies()) {
            removed += remove(copy) ? 1 : 0;
        }
        entries(LEFT).forEach(CopyFolder::remove);
        return removed;
    }

    private static boolean remove(Entry entry) {
        try {
            return Files.deleteIfExists(entry.path());
        } catch (IOException inUse) {
            return false;
        }
    }
}
