package padward.format.question;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import padward.base.BadInput;
import padward.fabric.delay.Corner;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.Separator;

/**
 * A question as a row of a table (RFC 4180, but a field has no line breaks). Columns come in any
 * order; those whose head starts with {@code #} are for people.
 */
final class RowQuestion implements QuestionLines.LineForm {
    private static final List<String> COLUMNS = List.of("id", "net", "pad", "corner", "what-if");

    private final String source;
    private final CSVFormat format;
    private final int fields;
    private final int[] fieldOfColumn;

    private RowQuestion(String source, CSVFormat format, int fields, int[] fieldOfColumn) {
        this.source = source;
        this.format = format;
        this.fields = fields;
        this.fieldOfColumn = fieldOfColumn.clone();
    }

    /** The reader of the rows under a header. */
    static RowQuestion under(String header, String source, long number) throws BadInput {
        CSVFormat format =
                CSVFormat.RFC4180
                        .builder()
                        .setDelimiter(separator(header))
                        .setIgnoreSurroundingSpaces(true)
                        .get();
        CSVRecord heads = record(header, format, source, number);
        int[] fields = new int[COLUMNS.size()];
        Arrays.fill(fields, -1);
        for (int i = 0; i < heads.size(); i++) {
            String head = head(heads.get(i));
            int column = COLUMNS.indexOf(head);
            if (head.startsWith("#")) {
                continue; // a column for people
            }
            if (column < 0 || fields[column] >= 0) {
                throw new BadInput(
                        source,
                        "line " + number,
                        column < 0
                                ? "JSON, or one of the columns " + String.join(", ", COLUMNS)
                                : "each column once",
                        column < 0
                                ? Nearest.describe(head, COLUMNS.stream())
                                : "a second " + Text.quote(head));
            }
            fields[column] = i;
        }
        for (String needed : List.of("net", "pad")) {
            if (fields[COLUMNS.indexOf(needed)] < 0) {
                throw new BadInput(
                        source, "line " + number, "a column " + Text.quote(needed), "none");
            }
        }
        return new RowQuestion(source, format, heads.size(), fields);
    }

    private static char separator(String header) {
        try {
            return Separator.find(
                    new BufferedReader(new StringReader(header)), n -> COLUMNS.contains(head(n)));
        } catch (IOException impossible) {
            throw new UncheckedIOException("the header is in memory", impossible);
        }
    }

    private static String head(String text) {
        return text.strip().toLowerCase(Locale.ROOT);
    }

    private static CSVRecord record(String line, CSVFormat format, String source, long number)
            throws BadInput {
        try (CSVParser parser = CSVParser.parse(line, format)) {
            return parser.iterator().next();
        } catch (IOException | UncheckedIOException fault) {
            throw new BadInput(
                    source, "line " + number, "fields as RFC 4180 writes them", Text.quote(line));
        }
    }

    @Override
    public WrittenQuestion read(String line, long number) throws BadInput {
        CSVRecord row = record(line, format, source, number);
        if (row.size() != fields) {
            throw new BadInput(
                    source,
                    "line " + number,
                    fields + " fields, as in the header",
                    "" + row.size());
        }
        return new WrittenQuestion(
                number,
                field(row, "id"),
                needed(row, "net", number),
                needed(row, "pad", number),
                corner(row, number),
                edits(field(row, "what-if")));
    }

    private String field(CSVRecord row, String column) {
        int field = fieldOfColumn[COLUMNS.indexOf(column)];
        return field < 0 ? "" : row.get(field);
    }

    private String needed(CSVRecord row, String column, long number) throws BadInput {
        String text = field(row, column);
        if (text.isEmpty()) {
            throw new BadInput(source, place(number, column), "a name", "an empty field");
        }
        return text;
    }

    private Optional<Corner> corner(CSVRecord row, long number) throws BadInput {
        String text = field(row, "corner");
        if (text.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                Stream.of(Corner.values())
                        .filter(c -> c.label().equalsIgnoreCase(text))
                        .findFirst()
                        .orElseThrow(
                                () ->
                                        new BadInput(
                                                source,
                                                place(number, "corner"),
                                                "one of fast, slow",
                                                Text.quote(text))));
    }

    /** Several edits have semicolons between them. */
    private static List<String> edits(String text) {
        return Stream.of(text.split(";")).map(String::strip).filter(e -> !e.isEmpty()).toList();
    }

    private static String place(long number, String column) {
        return "line " + number + ", column " + column;
    }
}
