package padward.format.tables.csv;

import java.io.BufferedReader;
import java.io.IOException;
import java.math.BigDecimal;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.apache.commons.csv.CSVException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.FabricLimits;
import padward.format.source.IoFaults;
import padward.format.source.Nearest;
import padward.format.source.Source;
import padward.format.source.Text;
import padward.format.source.TextSource;

/**
 * Walks over the rows of one table (RFC 4180, UTF-8) without storing them. The separator is the one
 * of comma, semicolon and tab that gives the header the most known columns; columns come in any
 * order; blanks around a field that is not quoted are ignored. A fault of a table as a whole is
 * reported to the {@link Faults}, and the table then has no (more) rows.
 *
 * <pre>{@code
 * while (table.next()) { use(table.text(name)); }
 * }</pre>
 */
public final class CsvTable implements AutoCloseable {
    private final Source source;
    private final TableShape shape;
    private final Faults faults;
    private final int[] fieldOfColumn;
    private RowReader rows;
    private char separator;
    private boolean more;
    private int fields;

    /** Opens a table and reads its header. */
    CsvTable(Source source, TableShape shape, Faults faults, Progress progress) {
        this.source = source;
        this.shape = shape;
        this.faults = faults;
        this.fieldOfColumn = new int[shape.columns().size()];
        Arrays.fill(fieldOfColumn, -1);
        try {
            BufferedReader text = new BufferedReader(TextSource.open(source, progress));
            separator = Separator.find(text, n -> shape.findColumn(head(n)).isPresent());
            rows = new RowReader(text, separator);
            if (!rows.next()) {
                headFault("", "a header with the names of columns", "an empty file");
            } else {
                more = readHead();
            }
        } catch (BadInput e) {
            faults.addBreak(e);
        } catch (IOException e) {
            faults.addBreak(malformed(e));
        }
    }

    /** Some whole lines of a table. */
    private CsvTable(CsvTable whole, char[] lines, Faults faults) {
        this.source = whole.source;
        this.shape = whole.shape;
        this.faults = faults;
        this.fieldOfColumn = whole.fieldOfColumn;
        this.separator = whole.separator;
        this.fields = whole.fields;
        this.rows = new RowReader(lines, separator);
        this.more = true;
    }

    /**
     * Reads rows in parts of some thousands, on all processors, as far as there is nothing to
     * report; what this leaves is to be read row by row, with {@link #next}.
     *
     * @param read makes something of all rows of a part, on any thread; faults that it reports are
     *     reported again when the rows are read one by one
     * @param take is given it, part after part on this thread; whether it could use it, else the
     *     rows of the part are left
     */
    public <P> void readParts(Function<CsvTable, P> read, Predicate<P> take) {
        if (more) {
            new PartsReader<>(rows, lines -> part(lines, read), take).run();
        }
    }

    private <P> PartsReader.Part<P> part(char[] lines, Function<CsvTable, P> read) {
        Faults found = new Faults(0);
        try (CsvTable part = new CsvTable(this, lines, found)) {
            P made = read.apply(part);
            return new PartsReader.Part<>(
                    made, part.rows.number(), !found.any() && part.rows.isPlain());
        }
    }

    /**
     * Reads a table that stands alone.
     *
     * @throws BadInput its first fault
     */
    public static void read(Path file, TableShape shape, Progress progress, TableFolder.Use use)
            throws BadInput {
        Faults faults = new Faults(1);
        try (CsvTable table = new CsvTable(Source.of(file), shape, faults, progress)) {
            if (!faults.broken()) {
                use.read(table);
            }
        }
        if (faults.any()) {
            throw faults.first().get(0);
        }
    }

    private static String head(String text) {
        return text.replace("\"", "").strip().toLowerCase(Locale.ROOT);
    }

    /** Whether the header is sound. */
    private boolean readHead() {
        boolean sound = true;
        fields = rows.size();
        List<String> known = shape.heads().toList();
        for (int i = 0; i < fields; i++) {
            String head = head(rows.text(i));
            if (head.startsWith("#")) {
                continue; // a column for people
            }
            int column = known.indexOf(head);
            if (column < 0) {
                String expected = "one of the columns " + String.join(", ", known);
                headFault("", expected, Nearest.describe(head, known.stream()));
                sound = false;
            } else if (fieldOfColumn[column] >= 0) {
                headFault(head, "each column once", "a second " + Text.quote(head));
                sound = false;
            } else {
                fieldOfColumn[column] = i;
            }
        }
        for (int i = 0; i < fieldOfColumn.length; i++) {
            ColumnShape column = shape.columns().get(i);
            if (column.need() == ColumnShape.Need.MUST && fieldOfColumn[i] < 0) {
                headFault("", "a column " + Text.quote(column.name()), present());
                sound = false;
            }
        }
        return sound;
    }

    private void headFault(String column, String expected, String found) {
        faults.addBreak(new BadInput(source.label(), place(1, column), expected, found));
    }

    private String present() {
        return "only "
                + IntStream.range(0, fields)
                        .mapToObj(i -> Text.quote(head(rows.text(i))))
                        .collect(Collectors.joining(", "));
    }

    /**
     * A handle for a column.
     *
     * @throws IllegalArgumentException when tables of this shape have none of that name
     */
    public Column column(String name) {
        int index = shape.heads().toList().indexOf(name);
        if (index < 0) {
            throw new IllegalArgumentException(shape.name() + " has no column " + name);
        }
        return new Column(name, fieldOfColumn[index]);
    }

    /**
     * A column of an opened table.
     *
     * @param name its name in the header
     * @param field its index in each row, -1 when the table lacks it
     */
    public record Column(String name, int field) {}

    /** Moves to the next row that is not empty; false at the end, or where it cannot go on. */
    public boolean next() {
        try {
            while (more && rows.next()) {
                boolean empty = rows.size() == 1 && rows.isEmpty(0);
                if (!empty && rows.size() == fields) {
                    return true;
                }
                if (!empty) {
                    int size = rows.size();
                    fault(row(), "", fields + " fields, as in the header", () -> "" + size);
                }
            }
        } catch (IOException e) {
            faults.addBreak(malformed(e));
        }
        more = false;
        return false;
    }

    private BadInput malformed(IOException e) {
        boolean quoting = e instanceof CSVException;
        return quoting || e instanceof BoundedRows.TooLong
                ? new BadInput(
                        source.label(),
                        "row " + (rows == null ? 1 : rows.number() + 1),
                        "fields as RFC 4180 writes them",
                        "" + e.getMessage())
                : IoFaults.describe(source, e);
    }

    /** Number of the row as a spreadsheet counts: the header is row 1. */
    public long row() {
        return rows.number();
    }

    /** The field of a column, empty when the table does not have the column. */
    public String text(Column column) {
        return column.field() < 0 ? "" : rows.text(column.field());
    }

    public boolean has(Column column) {
        return column.field() >= 0 && !rows.isEmpty(column.field());
    }

    /** Finds something by a text. */
    @FunctionalInterface
    public interface Finder {
        /** What it finds by the characters from one position to before another. */
        int find(char[] text, int from, int to);
    }

    /** The characters in which fields are; not to be changed, and valid until the next row. */
    public char[] chars() {
        return rows.chars();
    }

    /** Where a field that the row has begins in {@link #chars}. */
    public int start(Column column) {
        return rows.start(column.field());
    }

    /** One past its last character. */
    public int end(Column column) {
        return rows.end(column.field());
    }

    /** What is found by the text of a field, of which no object is made. */
    public int find(Column column, Finder finder) {
        return column.field() < 0
                ? finder.find(rows.chars(), 0, 0)
                : finder.find(rows.chars(), rows.start(column.field()), rows.end(column.field()));
    }

    /** A name: printable, not empty. Empty after a fault. */
    public String name(Column column) {
        String name = word(column);
        if (name.isEmpty() && text(column).isEmpty()) {
            fault(column, "a name", () -> "an empty field");
        }
        return name;
    }

    /**
     * Whether a field is a name of plain characters, as {@link #name} requires; false if unsure.
     */
    public boolean isPlainName(Column column) {
        int start = rows.start(column.field());
        int end = rows.end(column.field());
        boolean plain = end > start && end - start <= FabricLimits.NAME_LENGTH;
        for (int i = start; plain && i < end; i++) {
            char c = rows.chars()[i];
            plain = c >= ' ' && c <= '~';
        }
        return plain;
    }

    /** A name, or nothing. */
    public String word(Column column) {
        String text = text(column);
        if (text.length() > FabricLimits.NAME_LENGTH) {
            fault(
                    column,
                    "at most " + FabricLimits.NAME_LENGTH + " characters",
                    () -> text.length() + " characters");
            return "";
        }
        if (!Text.isPrintable(text)) {
            fault(column, "a name of printable characters", () -> Text.quote(text));
            return "";
        }
        return text;
    }

    /** A whole number of a range, or another value when the field is empty or at fault. */
    public int integer(Column column, int least, int most, int otherwise) {
        if (!has(column)) {
            return otherwise;
        }
        int plain = rows.plainNumber(column.field());
        if (plain >= least && plain <= most) {
            return plain;
        }
        String text = text(column);
        try {
            long value = Long.parseLong(text);
            if (value >= least && value <= most) {
                return (int) value;
            }
        } catch (NumberFormatException e) {
            // reported below
        }
        fault(column, "a whole number from " + least + " to " + most, () -> Text.quote(text));
        return otherwise;
    }

    /** A number of a range, or another value when the field is empty or at fault. */
    public double real(Column column, double least, double most, double otherwise) {
        String text = text(column);
        if (text.isEmpty()) {
            return otherwise;
        }
        try {
            // Decimal numbers only, and a zero without a sign: -0 is the 0 that is written.
            double value = new BigDecimal(text).doubleValue();
            if (value >= least && value <= most) {
                return value;
            }
        } catch (NumberFormatException e) {
            // reported below
        }
        String expected = String.format(Locale.ROOT, "a number from %.0f to %.0f", least, most);
        fault(column, expected, () -> Text.quote(text));
        return otherwise;
    }

    /** {@code yes} or {@code no}; the latter when the field is empty. */
    public boolean flag(Column column) {
        return flag(column, false);
    }

    /** {@code yes} or {@code no}, or another value when the field is empty or at fault. */
    public boolean flag(Column column, boolean otherwise) {
        String text = text(column).toLowerCase(Locale.ROOT);
        switch (text) {
            case "yes", "true", "1" -> {
                return true;
            }
            case "no", "false", "0" -> {
                return false;
            }
            case "" -> {
                return otherwise;
            }
            default -> {
                fault(column, "yes or no", () -> Text.quote(text));
                return otherwise;
            }
        }
    }

    /** One of a few words; another value when the field is empty or at fault. */
    public <T> T oneOf(Column column, T[] values, Function<T, String> label, T other) {
        String text = text(column);
        if (text.isEmpty()) {
            return other;
        }
        for (T value : values) {
            if (label.apply(value).equalsIgnoreCase(text)) {
                return value;
            }
        }
        List<String> labels = Arrays.stream(values).map(label).toList();
        fault(
                column,
                "one of " + String.join(", ", labels),
                () -> Nearest.describe(text, labels.stream()));
        return other;
    }

    /** Reports a fault of a field of this row. */
    public void fault(Column column, String expected, Supplier<String> found) {
        fault(row(), column.name(), expected, found);
    }

    /** Reports a fault of a field of any row. */
    public void fault(long atRow, String column, String expected, Supplier<String> found) {
        faults.add(source.label(), place(atRow, column), expected, found);
    }

    public static String place(long row, String column) {
        return "row " + row + (column.isEmpty() ? "" : ", column " + column);
    }

    @Override
    public void close() {
        try {
            if (rows != null) {
                rows.close();
            }
        } catch (IOException e) {
            faults.add(IoFaults.describe(source, e));
        }
    }
}
