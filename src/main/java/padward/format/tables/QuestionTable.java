package padward.format.tables;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableShape;

/** A table of questions: in each row a net and a pad. */
public final class QuestionTable {
    private static final TableShape SHAPE =
            new TableShape(
                    "questions",
                    "a question",
                    List.of(
                            new ColumnShape("net", ColumnShape.Need.MUST, "name of the net"),
                            new ColumnShape(
                                    "pad",
                                    ColumnShape.Need.MUST,
                                    "the pad: its name, package pin, port, board net or header"
                                            + " pin")));

    private QuestionTable() {}

    /**
     * A question as it is written.
     *
     * @param net the net's name
     * @param pad the pad's name, of any kind
     * @param row number of its row; the header is row 1
     */
    public record Row(String net, String pad, long row) {
        /** Where one of its two fields is, for messages. */
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
            throw new BadInput(file.toString(), "", "a row for each question", "none");
        }
        return rows;
    }

    private static void readRows(CsvTable table, List<Row> rows) {
        CsvTable.Column net = table.column("net");
        CsvTable.Column pad = table.column("pad");
        while (table.next()) {
            rows.add(new Row(table.name(net), table.name(pad), table.row()));
        }
    }
}
