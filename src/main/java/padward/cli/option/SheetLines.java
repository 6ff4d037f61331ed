package padward.cli.option;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.apache.commons.csv.DuplicateHeaderMode;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.Delay;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.TextSource;
import padward.format.tables.csv.Separator;

/** The lines of a bench sheet as CSV, by all names that a channel of a capture can have. */
public final class SheetLines {
    private static final List<String> NAMES =
            List.of("channel", "place", "net", "port", "pad", "packagePin");
    private static final String FAST = "instrumentFast_ps";
    private static final String SLOW = "instrumentSlow_ps";

    private final Path file;
    private final List<Delay> delays = new ArrayList<>();
    private final Map<String, Set<Integer>> linesByName = new HashMap<>();

    private SheetLines(Path file) {
        this.file = file;
    }

    /**
     * Reads a sheet, with commas, semicolons or tabs between its fields.
     *
     * @throws BadInput when it cannot be read, or lacks the columns with the delays
     */
    public static SheetLines read(Path file) throws BadInput {
        SheetLines lines = new SheetLines(file);
        Source source = Source.of(file);
        try (BufferedReader text = new BufferedReader(TextSource.open(source, Progress.NONE));
                CSVParser rows = CSVParser.parse((Reader) text, format(text))) {
            lines.readRows(rows);
        } catch (UncheckedIOException fault) {
            throw lines.fault(source, fault.getCause());
        } catch (IOException fault) {
            throw lines.fault(source, fault);
        } catch (IllegalArgumentException twice) {
            throw new BadInput(
                    file.toString(), "line 1", "each column once", "" + twice.getMessage());
        }
        return lines;
    }

    private BadInput fault(Source source, IOException fault) {
        return fault instanceof CSVException
                ? new BadInput(
                        file.toString(), "", "fields as RFC 4180 writes them", fault.getMessage())
                : IoFaults.describe(source, fault);
    }

    private static CSVFormat format(BufferedReader text) throws IOException {
        List<String> delays = List.of(FAST, SLOW);
        char separator = Separator.find(text, n -> NAMES.contains(n) || delays.contains(n));
        return CSVFormat.RFC4180
                .builder()
                .setDelimiter(separator)
                .setHeader()
                .setAllowMissingColumnNames(true)
                .setDuplicateHeaderMode(DuplicateHeaderMode.ALLOW_EMPTY)
                .setSkipHeaderRecord(true)
                .setIgnoreEmptyLines(true)
                .setTrim(true)
                .get();
    }

    private void readRows(CSVParser rows) throws BadInput {
        if (!rows.getHeaderNames().containsAll(List.of(FAST, SLOW))) {
            String expected = "columns " + FAST + " and " + SLOW;
            String found =
                    rows.getHeaderNames().isEmpty()
                            ? "an empty file"
                            : String.join(", ", rows.getHeaderNames());
            throw new BadInput(file.toString(), "line 1", expected, found);
        }
        for (CSVRecord row : rows) {
            int line = delays.size();
            delays.add(delay(row));
            for (String name : NAMES) {
                if (row.isSet(name) && !row.get(name).isEmpty()) {
                    linesByName.computeIfAbsent(row.get(name), n -> new TreeSet<>()).add(line);
                }
            }
        }
    }

    private Delay delay(CSVRecord row) throws BadInput {
        String fast = row.isSet(FAST) ? row.get(FAST) : "";
        String slow = row.isSet(SLOW) ? row.get(SLOW) : "";
        try {
            int least = Integer.parseInt(fast);
            int most = Integer.parseInt(slow);
            if (least >= 0 && least <= most) {
                return new Delay(least, most);
            }
        } catch (NumberFormatException wrong) {
            // reported below
        }
        throw new BadInput(
                file.toString(),
                "record " + row.getRecordNumber(),
                "a fast and a slow delay in whole picoseconds, the fast one no greater",
                fast + ", " + slow);
    }

    public boolean knows(String name) {
        return linesByName.containsKey(name);
    }

    /**
     * The delay of the line with a name.
     *
     * @throws BadInput when several lines have it, with different delays
     */
    public Optional<Delay> find(String name) throws BadInput {
        Set<Integer> lines = linesByName.getOrDefault(name, Set.of());
        if (lines.stream().map(delays::get).distinct().count() > 1) {
            throw new BadInput(
                    file.toString(),
                    "",
                    "one line called " + name + ", or --channel to choose one",
                    "lines "
                            + lines.stream()
                                    .map(l -> l + 1 + "")
                                    .collect(Collectors.joining(", ")));
        }
        return lines.stream().findFirst().map(delays::get);
    }
}
