package padward.ui.export;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.base.Formulas;

/**
 * A table for a CSV file.
 *
 * @param columns names of the columns, with their units
 * @param rows one text for each column
 */
record CsvTable(List<String> columns, List<List<String>> rows) {
    /** Copies the lists. */
    CsvTable {
        columns = List.copyOf(columns);
        rows = rows.stream().map(List::copyOf).toList();
    }

    /** Collects rows. */
    static final class Builder {
        private final List<String> columns;
        private final List<List<String>> rows = new ArrayList<>();

        Builder(String... columns) {
            this.columns = List.of(columns);
        }

        /**
         * Adds a row.
         *
         * @throws IllegalArgumentException when there are more or fewer values than columns
         */
        void row(Object... values) {
            if (values.length != columns.size()) {
                throw new IllegalArgumentException(
                        values.length + " values for " + columns.size() + " columns");
            }
            List<String> row = new ArrayList<>();
            for (Object value : values) {
                row.add(Formulas.guard(value));
            }
            rows.add(row);
        }

        CsvTable build() {
            return new CsvTable(columns, rows);
        }
    }

    /** The table as CSV by RFC 4180: lines end in CRLF, values are quoted where necessary. */
    String toCsv() {
        StringBuilder text = new StringBuilder();
        try (CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            out.printRecord(columns);
            for (List<String> row : rows) {
                out.printRecord(row);
            }
        } catch (IOException never) {
            throw new UncheckedIOException(never);
        }
        return text.toString();
    }
}
