package padward.format.question;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableShape;

/** A table of nets that are wanted at the bench. */
public final class WantedTable {
    private static final TableShape SHAPE =
            new TableShape(
                    "wanted",
                    "a net that is wanted at the bench",
                    List.of(
                            new ColumnShape(
                                    "net", ColumnShape.Need.MUST, "the net, as in a question"),
                            new ColumnShape(
                                    "pads",
                                    ColumnShape.Need.MAY,
                                    "the pads that will do, the best first, with `|` between"
                                            + " them; empty: any"),
                            new ColumnShape(
                                    "need",
                                    ColumnShape.Need.MAY,
                                    "`must` or `may`; empty: `must`")));

    private static final String[] NEEDS = {"must", "may"};

    private WantedTable() {}

    /**
     * A row.
     *
     * @param net the net as it is written
     * @param pads the pads as they are written
     * @param must whether it must be seen
     * @param row number of its row; the header is row 1
     */
    public record Row(String net, List<String> pads, boolean must, long row) {
        /** Copies the pads. */
        public Row {
            pads = List.copyOf(pads);
        }

        /** Where one of its fields is, for messages. */
        public String place(String column) {
            return CsvTable.place(row, column);
        }
    }

    /**
     * Reads a table.
     *
     * @throws BadInput at the first fault, or when it has no rows
     */
    public static List<Row> read(Path file) throws BadInput {
        List<Row> rows = new ArrayList<>();
        CsvTable.read(file, SHAPE, Progress.NONE, table -> readRows(table, rows));
        if (rows.isEmpty()) {
            throw new BadInput(file.toString(), "", "a row for each wanted net", "none");
        }
        return rows;
    }

    private static void readRows(CsvTable table, List<Row> rows) {
        CsvTable.Column net = table.column("net");
        CsvTable.Column pads = table.column("pads");
        CsvTable.Column need = table.column("need");
        while (table.next()) {
            List<String> names =
                    Stream.of(table.text(pads).split("\\|"))
                            .map(String::strip)
                            .filter(n -> !n.isEmpty())
                            .toList();
            String word = table.oneOf(need, NEEDS, w -> w, NEEDS[0]);
            rows.add(new Row(table.name(net), names, word.equals(NEEDS[0]), table.row()));
        }
    }
}
