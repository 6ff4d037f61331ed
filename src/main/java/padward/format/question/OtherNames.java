package padward.format.question;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.Text;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableShape;

/** A table of names that nets have elsewhere, as in the source text that the design comes from. */
public final class OtherNames {
    private static final TableShape SHAPE =
            new TableShape(
                    "names",
                    "another name of a net",
                    List.of(
                            new ColumnShape("name", ColumnShape.Need.MUST, "the other name"),
                            new ColumnShape(
                                    "net",
                                    ColumnShape.Need.MUST,
                                    "the net's name in the design, or `cell.pin` where it begins"
                                            + " or ends")));

    private OtherNames() {}

    /**
     * Reads a table: the design's names by the other ones, in its order.
     *
     * @throws BadInput at the first fault
     */
    public static Map<String, String> read(Path file) throws BadInput {
        Map<String, String> result = new LinkedHashMap<>();
        CsvTable.read(
                file,
                SHAPE,
                Progress.NONE,
                table -> {
                    CsvTable.Column name = table.column("name");
                    CsvTable.Column net = table.column("net");
                    while (table.next()) {
                        String other = table.name(name);
                        if (result.put(other, table.name(net)) != null) {
                            table.fault(name, "each name once", () -> Text.quote(other) + " again");
                        }
                    }
                });
        return result;
    }
}
