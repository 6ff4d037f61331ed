package padward.capture;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Locale;
import org.apache.commons.csv.CSVException;
import padward.base.BadInput;
import padward.base.ReadFault;

/** Aligns capture files of any size; the name tells the form. */
public final class Captures {
    private Captures() {}

    /** Makes an alignment for a capture's channels. */
    public interface Aligning {
        /**
         * The alignment, by the channels' whole names.
         *
         * @throws BadInput when it cannot be told
         */
        Alignment of(List<Channel> channels) throws BadInput;
    }

    /**
     * Reads a capture and writes it aligned, VCD to VCD and CSV to CSV. The file written is there
     * whole or not at all.
     *
     * @param alignments makes the alignment once the names of the capture's channels are known
     * @return the names of the channels
     * @throws BadInput when a file cannot be read or written, or is not a capture
     */
    public static List<String> align(Path capture, Path aligned, Aligning alignments)
            throws BadInput {
        boolean csv = isCsv(capture);
        if (csv != isCsv(aligned)) {
            throw new BadInput("-o", "", "a name of the capture's own form", aligned.toString());
        }
        Path target = aligned.toAbsolutePath();
        Path beside = target.resolveSibling(target.getFileName() + ".part");
        try {
            List<String> channels;
            // Names are kept byte for byte, whatever their encoding.
            var bytes = csv ? StandardCharsets.UTF_8 : StandardCharsets.ISO_8859_1;
            try (Reader in = withoutMark(Files.newBufferedReader(capture, bytes), csv);
                    Writer out = new BufferedWriter(Files.newBufferedWriter(beside, bytes))) {
                channels =
                        csv
                                ? Samples.align(capture.toString(), in, out, alignments)
                                : Vcd.align(capture.toString(), in, out, alignments);
            }
            Files.move(beside, target, StandardCopyOption.REPLACE_EXISTING);
            return channels;
        } catch (UncheckedIOException fault) {
            throw describe(capture, fault.getCause());
        } catch (IOException fault) {
            throw describe(capture, fault);
        } finally {
            deleteQuietly(beside);
        }
    }

    /** Passes over a byte order mark, where bytes are read as text. */
    private static Reader withoutMark(BufferedReader in, boolean text) throws IOException {
        in.mark(1);
        if (!text || in.read() != '\uFEFF') {
            in.reset();
        }
        return in;
    }

    private static BadInput describe(Path capture, IOException fault) {
        return fault instanceof CSVException
                ? new BadInput(
                        capture.toString(),
                        "",
                        "fields as RFC 4180 writes them",
                        fault.getMessage())
                : ReadFault.of(capture.toString(), fault);
    }

    /**
     * Whether a file's name says that it is CSV rather than VCD.
     *
     * @throws BadInput when it says neither
     */
    static boolean isCsv(Path file) throws BadInput {
        String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
        if (!name.endsWith(".csv") && !name.endsWith(".vcd")) {
            throw new BadInput(file.toString(), "", "a name that ends in .vcd or .csv", name);
        }
        return name.endsWith(".csv");
    }

    private static void deleteQuietly(Path file) {
        try {
            Files.deleteIfExists(file);
        } catch (IOException ignored) {
            // The fault that led here is the one to tell.
        }
    }
}
