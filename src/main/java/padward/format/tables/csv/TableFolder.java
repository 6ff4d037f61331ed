package padward.format.tables.csv;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.FolderSwap;
import padward.format.source.Nearest;
import padward.format.source.Source;

/** The tables of a folder: {@code NAME.csv} or {@code .tsv}, with or without {@code .gz}. */
public final class TableFolder {
    private static final List<String> ENDINGS = List.of(".csv", ".csv.gz", ".tsv", ".tsv.gz");

    private final Path folder;
    private final List<TableShape> tables;
    private final Map<TableShape, Path> files = new LinkedHashMap<>();
    private final Faults faults;
    private final Progress progress;

    /**
     * Looks for the tables.
     *
     * @param tables those that may be there
     * @throws BadInput when the folder cannot be read
     */
    public TableFolder(Path folder, List<TableShape> tables, Faults faults, Progress progress)
            throws BadInput {
        this.folder = folder;
        this.tables = tables;
        this.faults = faults;
        this.progress = progress;
        if (!Files.isDirectory(folder)) {
            throw new BadInput(
                    folder.toString(),
                    "",
                    "a folder with tables",
                    Files.exists(folder) ? "a file" : "no such folder" + leftBehind(folder));
        }
        try (Stream<Path> all = Files.list(folder)) {
            all.sorted().forEach(this::add);
        } catch (IOException | UncheckedIOException e) {
            throw new BadInput(folder.toString(), "", "a folder that can be read", e.getMessage());
        }
    }

    private static String leftBehind(Path folder) {
        List<Path> left = FolderSwap.leftBehind(folder);
        return left.isEmpty()
                ? ""
                : "; a program that was replacing it was stopped, and what stood there is in "
                        + left.get(0);
    }

    private void add(Path file) {
        String name = file.getFileName().toString();
        String ending = ENDINGS.stream().filter(name::endsWith).findFirst().orElse("");
        if (ending.isEmpty() || !Files.isRegularFile(file)) {
            return; // other files are no business of ours
        }
        String stem = name.substring(0, name.length() - ending.length());
        List<String> known = tables.stream().map(TableShape::name).toList();
        if (!known.contains(stem)) {
            faults.add(
                    file.toString(),
                    "",
                    "a table of one of the names " + String.join(", ", known),
                    () -> Nearest.describe(stem, known.stream()));
            return;
        }
        Path before = files.putIfAbsent(tables.get(known.indexOf(stem)), file);
        if (before != null) {
            faults.add(
                    file.toString(),
                    "",
                    "each table once",
                    () -> before.getFileName() + " as well");
        }
    }

    /** The folder's name, for things without a name of their own. */
    public String name() {
        Path name = folder.toAbsolutePath().normalize().getFileName();
        return name == null ? "tables" : name.toString();
    }

    public boolean has(TableShape shape) {
        return files.containsKey(shape);
    }

    /** What messages call a table, whether it is there or not. */
    public String label(TableShape shape) {
        return has(shape)
                ? files.get(shape).toString()
                : folder.resolve(shape.name() + ".csv").toString();
    }

    /** What is done with each table. */
    public interface Use {
        public void read(CsvTable table);
    }

    /**
     * Reads a table, if it is there. Once a table could not be read to its end, only the headers of
     * the others are checked.
     */
    public void read(TableShape shape, Use use) {
        read(shape, faults, use);
    }

    /** Reads a table that is read again later, when its faults are reported. */
    public void readAgain(TableShape shape, Use use) {
        read(shape, new Faults(0), use);
    }

    private void read(TableShape shape, Faults to, Use use) {
        if (has(shape)) {
            try (CsvTable table = new CsvTable(Source.of(files.get(shape)), shape, to, progress)) {
                if (!to.broken()) {
                    use.read(table);
                }
            }
        }
    }
}
