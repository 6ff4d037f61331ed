package padward.format.tables.csv;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.base.Formulas;

/** Rows as CSV: RFC 4180, with heads, and nothing that a table program would calculate. */
public final class CsvText {
    private CsvText() {}

    /**
     * The text, with the heads alone if there are no rows.
     *
     * @param heads the heads of the columns
     * @param rows the rows
     */
    public static String of(List<String> heads, List<List<String>> rows) {
        StringBuilder text = new StringBuilder();
        try (CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            out.printRecord(heads);
            for (List<String> row : rows) {
                out.printRecord(row.stream().map(Formulas::guard).toList());
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException("nothing is written outside memory", impossible);
        }
        return text.toString();
    }
}
