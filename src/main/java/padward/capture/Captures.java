package padward.capture;

import java.io.BufferedReader;
import java.io.BufferedWriter;
import java.io.FilterReader;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicReference;
import org.apache.commons.csv.CSVException;
import padward.base.BadInput;
import padward.base.OrderMark;
import padward.base.Progress;
import padward.base.ReadFault;
import padward.base.WholeFile;

/** Reads and deskews capture files of any size; the name's ending selects the format. */
public final class Captures {
    /** Latest time of a capture: a shift of any channel after it still fits 64 bits. */
    static final long MOST_FS = 9_000_000_000_000_000_000L;

    private Captures() {}

    /** Makes the deskew for a capture's channels. */
    public interface DeskewFactory {
        /**
         * The deskew, by the channels' full names.
         *
         * @throws BadInput when it cannot be determined
         */
        Deskew of(List<Channel> channels) throws BadInput;
    }

    /** As with progress, but reporting none. */
    public static Deskewed deskew(Path capture, Path deskewed, DeskewFactory deskews)
            throws BadInput {
        return deskew(capture, deskewed, deskews, Progress.NONE);
    }

    /**
     * Reads a capture and writes it deskewed, VCD to VCD and CSV to CSV. The output file is written
     * completely or not at all.
     *
     * @param deskews makes the deskew once the names of the capture's channels are known
     * @throws BadInput when a file cannot be read or written, or is not a capture
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled; the
     *     output file is then as it was
     */
    public static Deskewed deskew(
            Path capture, Path deskewed, DeskewFactory deskews, Progress progress) throws BadInput {
        boolean csv = isCsv(capture);
        if (csv != isCsv(deskewed)) {
            throw new BadInput(
                    "-o", "", "a name with the capture's own extension", deskewed.toString());
        }
        AtomicReference<Deskewed> result = new AtomicReference<>();
        // Names are kept byte for byte, whatever their encoding.
        Charset bytes = csv ? StandardCharsets.UTF_8 : StandardCharsets.ISO_8859_1;
        WholeFile.write(
                deskewed,
                raw -> {
                    Writer out = new BufferedWriter(new OutputStreamWriter(raw, bytes));
                    result.set(deskew(capture, csv, bytes, out, deskews, progress));
                    out.flush();
                });
        return result.get();
    }

    /**
     * Reads a capture.
     *
     * @throws BadInput when it cannot be read, or is none
     */
    static void read(Path capture, Changes changes) throws BadInput {
        boolean csv = isCsv(capture);
        try {
            parsed(
                    capture,
                    csv,
                    csv ? StandardCharsets.UTF_8 : StandardCharsets.ISO_8859_1,
                    Progress.NONE,
                    in -> {
                        if (csv) {
                            Samples.read(capture.toString(), in, changes);
                        } else {
                            Vcd.read(capture.toString(), in, changes);
                        }
                        return new Deskewed(List.of(), Map.of(), Optional.empty());
                    });
        } catch (IOException fault) {
            throw ReadFault.of(capture.toString(), fault);
        }
    }

    private static Deskewed deskew(
            Path capture,
            boolean csv,
            Charset bytes,
            Writer out,
            DeskewFactory deskews,
            Progress progress)
            throws IOException, BadInput {
        return parsed(
                capture,
                csv,
                bytes,
                progress,
                in ->
                        csv
                                ? Samples.deskew(capture.toString(), in, out, deskews)
                                : Vcd.deskew(capture.toString(), in, out, deskews));
    }

    /** What reads an open capture. */
    private interface Parser {
        Deskewed parse(Reader in) throws IOException, BadInput;
    }

    private static Deskewed parsed(
            Path capture, boolean csv, Charset bytes, Progress progress, Parser parser)
            throws IOException, BadInput {
        try (BufferedReader in = open(capture, bytes, progress)) {
            if (csv) {
                OrderMark.skip(in);
            }
            return parser.parse(in);
        } catch (CSVException fault) {
            throw quoting(capture, fault);
        } catch (UncheckedIOException fault) {
            throw fault.getCause() instanceof CSVException wrong
                    ? quoting(capture, wrong)
                    : ReadFault.of(capture.toString(), fault.getCause());
        }
    }

    private static BadInput quoting(Path capture, CSVException fault) {
        return new BadInput(
                capture.toString(), "", "fields as RFC 4180 writes them", fault.getMessage());
    }

    /** Opens a capture; errors while reading are not reported as errors of the output file. */
    private static BufferedReader open(Path capture, Charset bytes, Progress progress)
            throws BadInput {
        try {
            return new BufferedReader(
                    new Unmixed(
                            Files.newBufferedReader(capture, bytes),
                            progress,
                            Files.size(capture),
                            "reading " + capture.getFileName()));
        } catch (IOException fault) {
            throw ReadFault.of(capture.toString(), fault);
        }
    }

    /** Distinguishes errors of reading from those of writing, and reports how much is read. */
    private static final class Unmixed extends FilterReader {
        private final Progress progress;
        private final long size;
        private final String message;
        private long count;

        /**
         * @param size of the file, bytes; almost all of them are one character each
         */
        Unmixed(Reader in, Progress progress, long size, String message) {
            super(in);
            this.progress = progress;
            this.size = size;
            this.message = message;
        }

        @Override
        public int read(char[] into, int from, int length) {
            progress.check();
            try {
                int got = super.read(into, from, length);
                count += Math.max(0, got);
                progress.report(size > 0 ? Math.min(1.0, (double) count / size) : -1, message);
                return got;
            } catch (IOException fault) {
                throw new UncheckedIOException(fault);
            }
        }
    }

    /**
     * Whether a file is CSV rather than VCD, by its name.
     *
     * @throws BadInput when it is neither
     */
    static boolean isCsv(Path file) throws BadInput {
        String name = file.getFileName().toString().toLowerCase(Locale.ROOT);
        if (!name.endsWith(".csv") && !name.endsWith(".vcd")) {
            throw new BadInput(file.toString(), "", "a name that ends in .vcd or .csv", name);
        }
        return name.endsWith(".csv");
    }
}
