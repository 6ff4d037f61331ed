package padward.format.source;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.Comparator;
import java.util.List;
import java.util.function.Predicate;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.OnInterrupt;
import padward.base.WholeFile;

/** Writes a folder of files so that a reader finds either the old folder or the whole new one. */
public final class FolderSwap {
    /** What is written into a folder. */
    public interface Body {
        /** Writes the files. */
        void write(Path folder) throws IOException, BadInput;
    }

    private FolderSwap() {}

    /**
     * Writes into a folder next to the target and moves it into place when everything is written.
     *
     * @param target where the folder is to be; what is there must be a folder of files of ours
     * @param ours whether a file of that name can be written over
     * @throws BadInput when it cannot be written; the target is then unchanged
     */
    @SuppressWarnings("try") // The resource is only to be closed.
    public static void write(Path target, Predicate<String> ours, Body body) throws BadInput {
        Path whole = target.toAbsolutePath().normalize();
        check(target, whole, ours);
        String mark = "." + ProcessHandle.current().pid();
        Path part = whole.resolveSibling(whole.getFileName() + mark + ".part");
        Path old = whole.resolveSibling(whole.getFileName() + mark + ".old");
        try (OnInterrupt ending = new OnInterrupt(() -> deleteAll(part))) {
            Files.createDirectories(part);
            body.write(part);
            boolean there = Files.exists(whole);
            if (there) {
                Files.move(whole, old, StandardCopyOption.ATOMIC_MOVE);
            }
            try {
                Files.move(part, whole, StandardCopyOption.ATOMIC_MOVE);
            } catch (IOException fault) {
                if (there) {
                    Files.move(old, whole, StandardCopyOption.ATOMIC_MOVE);
                }
                throw fault;
            }
        } catch (IOException fault) {
            throw WholeFile.describe(target, fault);
        } finally {
            deleteAll(part);
            deleteAll(old);
        }
    }

    private static void check(Path target, Path whole, Predicate<String> ours) throws BadInput {
        if (whole.getFileName() == null || !Files.isDirectory(whole.getParent())) {
            throw new BadInput(target.toString(), "", "a folder inside an existing one", "none");
        }
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

    private static String name(Path file) {
        return file.getFileName().toString();
    }

    private static void deleteAll(Path folder) {
        if (!Files.exists(folder)) {
            return;
        }
        try (Stream<Path> all = Files.walk(folder)) {
            for (Path each : all.sorted(Comparator.reverseOrder()).toList()) {
                Files.deleteIfExists(each);
            }
        } catch (IOException ignored) {
            // the result is in place already, or the fault that led here is reported
        }
    }
}
