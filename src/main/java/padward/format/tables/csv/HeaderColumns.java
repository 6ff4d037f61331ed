package padward.format.tables.csv;

import java.util.List;
import padward.design.board.BoardHeader;
import padward.format.json.EnumWords;
import padward.format.source.FileLimits;

/** Reads the shape of a header from the columns of a table that state it. */
public final class HeaderColumns {
    private final CsvTable table;
    private final CsvTable.Column pins;
    private final CsvTable.Column rows;
    private final CsvTable.Column numbering;
    private final CsvTable.Column seen;
    private final CsvTable.Column grounds;

    /**
     * Looks for the columns.
     *
     * @param grounds name of the column with the ground pins
     */
    public HeaderColumns(CsvTable table, String grounds) {
        this.table = table;
        this.pins = table.column("pins");
        this.rows = table.column("rows");
        this.numbering = table.column("numbering");
        this.seen = table.column("seen");
        this.grounds = table.column(grounds);
    }

    /** The number of pins, which says that the row states a header. */
    public CsvTable.Column pins() {
        return pins;
    }

    /** What else a row must state that states the number of pins. */
    public List<CsvTable.Column> others() {
        return List.of(rows, numbering, seen);
    }

    /** The header of this row; faults are reported to the table's. */
    public BoardHeader read(String name) {
        String listed = table.word(grounds).trim();
        return new BoardHeader(
                name,
                table.integer(pins, 1, FileLimits.HEADER_PINS, 1),
                table.integer(rows, 1, 2, 1),
                table.oneOf(
                        numbering,
                        BoardHeader.Numbering.values(),
                        EnumWords::of,
                        BoardHeader.Numbering.ACROSS),
                table.oneOf(seen, BoardHeader.Side.values(), EnumWords::of, BoardHeader.Side.TOP),
                listed.isEmpty() ? List.of() : List.of(listed.split(" +")));
    }
}
