package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.function.Function;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/**
 * A kind of value that is one token in JSON and one field in a table.
 *
 * @param reading how it is read in JSON
 * @param writing how it is written in JSON
 * @param schema what a validator can check
 * @param cell how it is read in a table
 * @param printing how it is written in a table
 * @param some a sound value, for a row that must state one and does not
 * @param spelling how the fields of a table spell it, to be put before what it means
 */
record Plain<V>(
        JsonIn.Element<V> reading,
        Kind.Writing<V> writing,
        Schema schema,
        CellReading<V> cell,
        Function<V, Object> printing,
        V some,
        String spelling)
        implements Kind<V> {
    /** Reads a field of a table. */
    interface CellReading<V> {
        V read(CsvTable table, CsvTable.Column column, V otherwise);
    }

    /** Texts of some sort. */
    static Plain<String> text(
            JsonIn.Element<String> reading, Schema schema, CellReading<String> cell) {
        return new Plain<>(reading, JsonWriter::value, schema, cell, text -> text, "", "");
    }

    @Override
    public V read(JsonIn in) throws BadInput {
        return reading.read(in);
    }

    @Override
    public void write(JsonWriter out, V value) throws IOException {
        writing.write(out, value);
    }

    @Override
    public List<ColumnShape> columns(String name, ColumnShape.Need need, String meaning) {
        return List.of(new ColumnShape(name, need, spelling + meaning));
    }

    @Override
    public Cell<V> open(CsvTable table, String name, boolean needed, V otherwise) {
        CsvTable.Column column = table.column(name);
        V sound = needed ? some : otherwise;
        return () -> cell.read(table, column, sound);
    }

    @Override
    public void addTo(List<Object> row, V value) {
        row.add(printing.apply(value));
    }
}
