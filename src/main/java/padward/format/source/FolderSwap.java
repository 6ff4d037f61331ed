package padward.format.source;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Predicate;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.OnInterrupt;
import padward.base.OwnerLock;
import padward.base.TemporaryName;
import padward.base.WholeFile;

/**
 * Writes a folder of files so that a reader finds either the old folder or the whole new one. It
 * takes two moves, as no system replaces a folder at once; a program killed between them leaves the
 * old folder next to the place, and the next that writes there puts it back first. The old folder
 * is deleted only once the new one is in place.
 */
public final class FolderSwap {
    /** What is written into a folder. */
    public interface Body {
        /** Writes the files. */
        void write(Path folder) throws IOException, BadInput;
    }

    /** How a folder gets another name. */
    interface Move {
        /** Moves it, unless something has the name already. */
        void move(Path from, Path to) throws IOException;
    }

    private final Path target;
    private final Path whole;
    private final Path part;
    private final Move mover;

    /** Guarded by this object: the program may be ended from outside at any moment. */
    private boolean ended;

    private FolderSwap(Path target, Path whole, Move mover) {
        this.target = target;
        this.whole = whole;
        this.part = TemporaryName.PART.nextTo(whole);
        this.mover = mover;
    }

    /**
     * Writes into a folder next to the target and moves it into place when everything is written.
     * Where the name is a link, the folder that it leads to is replaced.
     *
     * @param target where the folder is to be; what is there must be a folder of files of ours
     * @param ours whether a file of that name can be written over
     * @throws BadInput when it cannot be written, or another program is writing there; the target
     *     is then unchanged, or the message says where the old and the new folder are
     */
    public static void write(Path target, Predicate<String> ours, Body body) throws BadInput {
        write(target, ours, body, FolderSwap::move);
    }

    /** The same with other moves, for tests. */
    @SuppressWarnings("try") // The resource is only to be closed.
    static void write(Path target, Predicate<String> ours, Body body, Move mover) throws BadInput {
        Path whole = WholeFile.end(target).normalize();
        if (whole.getFileName() == null || !Files.isDirectory(whole.getParent())) {
            throw new BadInput(target.toString(), "", "a folder inside an existing one", "none");
        }
        try (OwnerLock lock = OwnerLock.take(whole, "a folder that no one else is writing")) {
            FolderSwap swap = new FolderSwap(target, whole, mover);
            swap.repair();
            swap.check(ours);
            swap.run(body);
        }
    }

    /** Where a program that was killed left the folder that stood at a name; none usually. */
    public static List<Path> leftBehind(Path target) {
        Path whole = target.toAbsolutePath().normalize();
        return whole.getFileName() == null || Files.exists(whole)
                ? List.of()
                : TemporaryName.OLD.findAll(whole);
    }

    /** Puts back what a program that was killed moved away, and clears what it had begun. */
    private void repair() throws BadInput {
        TemporaryName.PART.findAll(whole).forEach(FolderSwap::deleteAll);
        clearReplaced();
        List<Path> left = leftBehind(whole);
        if (left.size() > 1) {
            throw new BadInput(
                    target.toString(),
                    "",
                    "one folder that stood there before; rename the right one to it",
                    left.size() + ": " + left.get(0) + ", " + left.get(1));
        }
        if (left.size() == 1) {
            try {
                mover.move(left.get(0), whole);
            } catch (IOException fault) {
                throw WholeFile.describe(left.get(0), fault);
            }
        }
    }

    @SuppressWarnings("try") // The resource is only to be closed.
    private void run(Body body) throws BadInput {
        try (OnInterrupt ending = new OnInterrupt(this::end)) {
            Files.createDirectory(part);
            body.write(part);
            swap();
        } catch (IOException fault) {
            throw WholeFile.describe(target, fault);
        } finally {
            deleteAll(part);
        }
    }

    /** The program is being ended: once the moves are done, or before they begin. */
    private synchronized void end() {
        ended = true;
        deleteAll(part);
    }

    private synchronized void swap() throws IOException, BadInput {
        if (ended) {
            throw new IOException("the program was ended");
        }
        boolean there = Files.exists(whole, LinkOption.NOFOLLOW_LINKS);
        Path old = oldName();
        if (there) {
            mover.move(whole, old);
        }
        try {
            mover.move(part, whole);
        } catch (IOException fault) {
            if (there) {
                putBack(old, fault);
            }
            throw fault;
        }
        if (there) {
            discard(old);
        }
    }

    private void putBack(Path old, IOException why) throws BadInput {
        try {
            mover.move(old, whole);
        } catch (IOException again) {
            Path written = TemporaryName.NEW.nextTo(whole);
            String where;
            try {
                mover.move(part, written);
                where = "what was written is in " + written;
            } catch (IOException stays) {
                where = "what was written is lost";
            }
            String reason = WholeFile.describe(target, why).found();
            throw new BadInput(
                    target.toString(),
                    "",
                    "a folder that can be replaced",
                    reason + "; what stood there is in " + old + ", " + where);
        }
    }

    /**
     * A name that tells which folder has replaced this one, by the number that a folder keeps when
     * it gets another name.
     */
    private Path oldName() {
        return TemporaryName.OLD.nextTo(whole, number(part));
    }

    private static OptionalLong number(Path folder) {
        try {
            return OptionalLong.of(((Number) Files.getAttribute(folder, "unix:ino")).longValue());
        } catch (IOException | UnsupportedOperationException | IllegalArgumentException none) {
            return OptionalLong.empty();
        }
    }

    /** What the folder that stands here has replaced, left by a program that was killed then. */
    private void clearReplaced() {
        OptionalLong number = number(whole);
        if (number.isPresent()) {
            TemporaryName.OLD.findAll(whole, number.getAsLong()).forEach(this::discard);
        }
    }

    /** Under the name of unfinished work first: half of it must not be taken for the old folder. */
    private void discard(Path useless) {
        Path nameless = TemporaryName.PART.nextTo(whole);
        try {
            Files.move(useless, nameless, StandardCopyOption.ATOMIC_MOVE);
            deleteAll(nameless);
        } catch (IOException stays) {
            // The new folder is in place; the old one does no damage.
        }
    }

    private void check(Predicate<String> ours) throws BadInput {
        if (!Files.exists(whole)) {
            return;
        }
        String expected = "a new folder, or one with only files that are replaced";
        if (!Files.isDirectory(whole)) {
            throw new BadInput(target.toString(), "", expected, "a file");
        }
        try (Stream<Path> all = Files.list(whole)) {
            List<String> others =
                    all.filter(f -> !Files.isRegularFile(f) || !ours.test(name(f)))
                            .map(FolderSwap::name)
                            .sorted()
                            .toList();
            if (!others.isEmpty()) {
                throw new BadInput(
                        target.toString(), "", expected, Text.quote(others.get(0)) + " in it");
            }
        } catch (IOException | UncheckedIOException fault) {
            throw new BadInput(
                    target.toString(), "", "a folder that can be read", "" + fault.getMessage());
        }
    }

    private static void move(Path from, Path to) throws IOException {
        Files.move(from, to, StandardCopyOption.ATOMIC_MOVE);
    }

    private static String name(Path file) {
        return file.getFileName().toString();
    }

    private static void deleteAll(Path folder) {
        if (!Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
            return;
        }
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(each);
            }
        } catch (IOException | UncheckedIOException ignored) {
            // the result is in place already, or the fault that led here is reported
        }
    }
}
