package padward.format.tables.csv;

import java.io.BufferedOutputStream;
import java.io.BufferedWriter;
import java.io.IOException;
import java.io.OutputStream;
import java.io.OutputStreamWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.zip.GZIPOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.base.Progress;

/** Writes the tables of one folder. */
public final class TableOut {
    private final Path folder;
    private final List<TableShape> tables;
    private final boolean zipped;
    private final Progress progress;

    /**
     * @param tables all that may be written, in their order
     */
    public TableOut(Path folder, List<TableShape> tables, boolean zipped, Progress progress) {
        this.folder = folder;
        this.tables = tables;
        this.zipped = zipped;
        this.progress = progress;
    }

    /** The rows of a table. */
    public interface Body {
        void write(CSVPrinter out) throws IOException;
    }

    /**
     * Writes a table.
     *
     * @throws CancellationException when the progress is cancelled
     */
    public void table(TableShape shape, Body body) throws IOException {
        check();
        int index = tables.indexOf(shape);
        progress.report((double) index / tables.size(), "writing " + shape.name());
        Path file = folder.resolve(shape.name() + (zipped ? ".csv.gz" : ".csv"));
        try (OutputStream raw = Files.newOutputStream(file);
                OutputStream bytes =
                        zipped
                                ? new GZIPOutputStream(raw, 1 << 16)
                                : new BufferedOutputStream(raw, 1 << 16);
                Writer text =
                        new BufferedWriter(new OutputStreamWriter(bytes, StandardCharsets.UTF_8));
                CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            out.printRecord(shape.written());
            body.write(out);
        }
    }

    /** Throws when cancelled; to be called now and then while many rows are written. */
    public void check() {
        if (progress.cancelled()) {
            throw new CancellationException("writing " + folder);
        }
    }

    public static String yes(boolean flag) {
        return flag ? "yes" : "no";
    }
}
