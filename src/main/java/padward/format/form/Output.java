package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import padward.format.tables.csv.ColumnShape;

/** Where the fields of a record are written to. */
sealed interface Output {
    <V> void put(Field<V> field, V value) throws IOException;

    void put(IntField field, int value) throws IOException;

    /** The record need not state the field. */
    void leaveOut(Slot field);

    /** An object of JSON that is open. */
    record Json(JsonWriter out) implements Output {
        @Override
        public <V> void put(Field<V> field, V value) throws IOException {
            field.kind().write(out.name(field.name()), value);
        }

        @Override
        public void put(IntField field, int value) throws IOException {
            field.kind().write(out.name(field.name()), value);
        }

        @Override
        public void leaveOut(Slot field) {
            // Nothing says just that.
        }
    }

    /** A row of a table. */
    record Row(List<Object> row) implements Output {
        @Override
        public <V> void put(Field<V> field, V value) {
            field.kind().addTo(row, value);
        }

        @Override
        public void put(IntField field, int value) {
            field.kind().addTo(row, value);
        }

        @Override
        public void leaveOut(Slot field) {
            for (ColumnShape column : field.columns()) {
                if (column.need() != ColumnShape.Need.INSTEAD) {
                    row.add("");
                }
            }
        }
    }
}
