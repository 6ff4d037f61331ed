package padward.cli.output;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import padward.format.tables.csv.CsvText;

/** Text in columns, as wide as they need to be, or as CSV. */
public final class TextTable {
    private final List<String[]> rows = new ArrayList<>();

    public TextTable(String... heads) {
        rows.add(heads);
    }

    public void row(String... cells) {
        rows.add(cells);
    }

    /** Prints it as CSV, each cell as a field. */
    public void printCsv(PrintWriter out) {
        List<List<String>> cells = rows.stream().map(List::of).toList();
        out.print(CsvText.of(cells.get(0), cells.subList(1, cells.size())));
    }

    public void print(PrintWriter out) {
        int columns = rows.get(0).length;
        int[] widths = new int[columns];
        for (String[] row : rows) {
            for (int i = 0; i < columns; i++) {
                widths[i] = Math.max(widths[i], row[i].codePointCount(0, row[i].length()));
            }
        }
        for (String[] row : rows) {
            StringBuilder line = new StringBuilder();
            for (int i = 0; i < columns; i++) {
                line.append(row[i]);
                int length = row[i].codePointCount(0, row[i].length());
                line.append(" ".repeat(widths[i] - length + 2));
            }
            out.println(line.toString().stripTrailing());
        }
    }
}
