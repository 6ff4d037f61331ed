package padward.format.bareboard;

import java.io.BufferedReader;
import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.IoFaults;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/** What is in a board's net list or table of parts, and what is suspicious about it. */
public final class BoardNetListCheck {
    private static final int MOST_NAMED = 3;
    private static final int LONGEST_LINE = 4096;
    private static final Pattern RECORD = Pattern.compile("[CP](\\s.*)?|\\d{3}.*");

    private BoardNetListCheck() {}

    /** What a file that is not one of Padward's own can be. */
    private enum Kind {
        OTHER,
        NETS,
        PARTS
    }

    /**
     * Whether a file is read here: a table by its name, bare-board test data by its first line.
     *
     * @throws BadInput when it cannot be read
     */
    public static boolean isFor(Path file) throws BadInput {
        return isTable(file) || RECORD.matcher(firstLine(file)).matches();
    }

    private static boolean isTable(Path file) {
        return file.toString().toLowerCase(Locale.ROOT).endsWith(".csv");
    }

    /**
     * Reads a file and counts what is in it.
     *
     * @return lines for people
     * @throws BadInput when it cannot be read or has a fault
     */
    public static List<String> check(Path file, Progress progress) throws BadInput {
        if (!isTable(file)) {
            return describe(BoardNets.read(file, progress));
        }
        String head = firstLine(file);
        return switch (kindOf(head)) {
            case NETS -> describe(BoardNets.read(file, progress));
            case PARTS -> List.of(PartsTable.read(file, progress).toText());
            case OTHER ->
                    throw new BadInput(
                            file.toString(),
                            "row 1",
                            "the columns net, part, pin of a net list, or part of a table of parts;"
                                    + " tables of a device are checked by import",
                            head.isEmpty() ? "an empty row" : Text.quote(head));
        };
    }

    private static Kind kindOf(String head) {
        Set<String> columns = new HashSet<>();
        for (String column : head.split("[,;\t]")) {
            columns.add(column.replace("\"", "").trim().toLowerCase(Locale.ROOT));
        }
        boolean part = columns.contains("part");
        return !part ? Kind.OTHER : columns.contains("net") ? Kind.NETS : Kind.PARTS;
    }

    private static String firstLine(Path file) throws BadInput {
        Source source = Source.of(file);
        try (BufferedReader text = new BufferedReader(TextSource.open(source, Progress.NONE))) {
            StringBuilder line = new StringBuilder();
            for (int c = text.read();
                    c >= 0 && c != '\n' && c != '\r' && line.length() < LONGEST_LINE;
                    c = text.read()) {
                line.append((char) c);
            }
            return line.toString();
        } catch (IOException e) {
            throw IoFaults.describe(source, e);
        }
    }

    private static List<String> describe(BoardNets nets) {
        Map<String, Set<String>> netsOfPin = new HashMap<>();
        Map<String, Integer> pinsOfNet = new HashMap<>();
        Set<String> parts = new HashSet<>();
        for (PartPin pin : nets.pins()) {
            parts.add(pin.part());
            Set<String> there =
                    netsOfPin.computeIfAbsent(
                            pin.part() + " pin " + pin.pin(), p -> new TreeSet<>());
            if (there.add(pin.net())) {
                pinsOfNet.merge(pin.net(), 1, Integer::sum);
            }
        }
        List<String> lines = new ArrayList<>();
        lines.add(
                "net list: "
                        + pinsOfNet.size()
                        + " nets, "
                        + netsOfPin.size()
                        + " pins of "
                        + parts.size()
                        + " parts");
        lines.add("its parts and package pins are checked by board");
        find(
                lines,
                netsOfPin.entrySet().stream()
                        .filter(e -> e.getValue().size() > 1)
                        .map(e -> e.getKey() + " (" + String.join(", ", e.getValue()) + ")")
                        .sorted()
                        .toList(),
                "pins on several nets");
        find(
                lines,
                pinsOfNet.entrySet().stream()
                        .filter(e -> e.getValue() == 1)
                        .map(Map.Entry::getKey)
                        .sorted()
                        .toList(),
                "nets with one pin");
        if (nets.pins().isEmpty()) {
            lines.add("suspicious: no pin of any part is on a net");
        }
        return lines;
    }

    private static void find(List<String> lines, List<String> names, String what) {
        if (!names.isEmpty()) {
            String few = String.join(", ", names.subList(0, Math.min(MOST_NAMED, names.size())));
            String more = names.size() > MOST_NAMED ? ", …" : "";
            lines.add("suspicious: " + what + ": " + names.size() + " (" + few + more + ")");
        }
    }
}
