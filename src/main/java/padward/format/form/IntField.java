package padward.format.form;

import java.util.List;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/** A field of a record whose values are whole numbers. */
public final class IntField extends Slot {
    private final IntKind kind;
    private final int otherwise;
    private int value;
    private IntKind.Cell cell;

    IntField(String name, boolean needed, IntKind kind, int otherwise) {
        super(name, needed);
        this.kind = kind;
        this.otherwise = otherwise;
    }

    /** Its value in the record that was read last. */
    public int get() {
        return value;
    }

    @Override
    void clear() {
        super.clear();
        value = otherwise;
    }

    @Override
    void readValue(JsonIn in) throws BadInput {
        value = kind.read(in);
    }

    /** Says what it means, for people, with its unit. */
    public IntField means(String text) {
        explain(text);
        return this;
    }

    /** Gives its column in tables another name than its own. */
    public IntField column(String other) {
        nameColumn(other);
        return this;
    }

    @Override
    List<ColumnShape> columns() {
        return kind.columns(columnName(), need(), meaning());
    }

    @Override
    void open(CsvTable table) {
        cell = kind.open(table, columnName(), isNeeded(), otherwise);
    }

    @Override
    void readRow() {
        value = cell.read();
    }

    IntKind kind() {
        return kind;
    }

    /** Whether records need not state a value. */
    boolean isUsual(int stated) {
        return stated == otherwise;
    }

    @Override
    Schema schema() {
        return kind.schema().meaning(meaning());
    }
}
