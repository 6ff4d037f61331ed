package padward.format;

import com.google.gson.FormattingStyle;
import com.google.gson.stream.JsonWriter;
import java.io.BufferedOutputStream;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessDeniedException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.util.zip.GZIPOutputStream;
import padward.base.BadInput;
import padward.fabric.Delay;

/** Writes JSON so that a reader finds either the old file or the whole new one. */
final class JsonOut {
    /** What is written. */
    interface Body {
        void write(JsonWriter out) throws IOException;
    }

    private JsonOut() {}

    /**
     * Writes a file beside the target, flushes it to the disk, and moves it into place.
     *
     * @throws BadInput when that cannot be done; the old file then stands as it was
     */
    static void write(Path file, Body body) throws BadInput {
        Path target = file.toAbsolutePath();
        Path beside =
                target.resolveSibling(
                        target.getFileName() + "." + ProcessHandle.current().pid() + ".part");
        try {
            writeTo(beside, target.toString().endsWith(".gz"), body);
            Files.move(
                    beside,
                    target,
                    StandardCopyOption.ATOMIC_MOVE,
                    StandardCopyOption.REPLACE_EXISTING);
        } catch (IOException fault) {
            deleteQuietly(beside);
            throw describe(file, fault);
        }
    }

    private static void writeTo(Path file, boolean zipped, Body body) throws IOException {
        try (OutputStream raw = Files.newOutputStream(file);
                OutputStream bytes =
                        zipped
                                ? new GZIPOutputStream(raw, 1 << 16)
                                : new BufferedOutputStream(raw);
                JsonWriter out =
                        new JsonWriter(
                                new BufferedWriter(
                                        new OutputStreamWriter(bytes, StandardCharsets.UTF_8)))) {
            // People read the plain files, so these are spread over lines.
            out.setFormattingStyle(
                    zipped ? FormattingStyle.COMPACT : FormattingStyle.PRETTY.withIndent(" "));
            out.setHtmlSafe(false);
            body.write(out);
        }
        try (FileChannel channel = FileChannel.open(file, StandardOpenOption.WRITE)) {
            channel.force(true);
        }
    }

    private static BadInput describe(Path file, IOException fault) {
        String found = fault.getMessage();
        if (fault instanceof NoSuchFileException) {
            found = "no such folder";
        } else if (fault instanceof AccessDeniedException) {
            found = "no permission to write it";
        }
        return new BadInput(file.toString(), "", "a file that can be written", found);
    }

    private static void deleteQuietly(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException ignored) {
            // The fault that led here is the one to tell.
        }
    }

    static void delay(JsonWriter out, String name, Delay delay) throws IOException {
        out.name(name);
        out.beginArray().value(delay.fastPs()).value(delay.slowPs()).endArray();
    }

    static void pair(JsonWriter out, String name, int first, int second) throws IOException {
        out.name(name);
        out.beginArray().value(first).value(second).endArray();
    }

    static void optional(JsonWriter out, String name, String value) throws IOException {
        if (!value.isEmpty()) {
            out.name(name).value(value);
        }
    }
}
