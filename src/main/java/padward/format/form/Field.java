package padward.format.form;

import java.util.List;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/**
 * A field of a record.
 *
 * @param <V> its values
 */
public final class Field<V> extends Slot {
    private final Kind<V> kind;
    private final V otherwise;
    private V value;
    private Kind.Cell<V> cell;

    Field(String name, boolean needed, Kind<V> kind, V otherwise) {
        super(name, needed);
        this.kind = kind;
        this.otherwise = otherwise;
        this.value = otherwise;
    }

    /** Its value in the record that was read last. */
    public V get() {
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
    public Field<V> means(String text) {
        explain(text);
        return this;
    }

    /** Gives its column in tables another name than its own. */
    public Field<V> column(String other) {
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

    Kind<V> kind() {
        return kind;
    }

    /** Whether records need not state a value. */
    boolean isUsual(V stated) {
        return stated.equals(otherwise);
    }

    @Override
    Schema schema() {
        return kind.schema().meaning(meaning());
    }
}
