package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.function.Function;
import padward.base.BadInput;
import padward.fabric.delay.AtCorners;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/**
 * Values at both corners: a pair in JSON, two columns in a table, whose names are put together of
 * {@code fast}, {@code slow} and the field's.
 */
record CornersKind<V>(
        JsonIn.Element<V> reading,
        int greatest,
        Function<V, AtCorners> toCorners,
        Function<AtCorners, V> fromCorners)
        implements Kind<V> {
    @Override
    public V read(JsonIn in) throws BadInput {
        return reading.read(in);
    }

    @Override
    public void write(JsonWriter out, V value) throws IOException {
        AtCorners corners = toCorners.apply(value);
        out.beginArray().value(corners.fast()).value(corners.slow()).endArray();
    }

    @Override
    public Schema schema() {
        Schema each = Schema.whole(0, greatest);
        return Schema.tuple(each, each);
    }

    /** {@code rise_fast_ps} for {@code rise_ps}, {@code fast_ohms} for {@code ohms}. */
    private static String column(String name, String corner) {
        int unit = name.lastIndexOf('_') + 1;
        return name.substring(0, unit) + corner + "_" + name.substring(unit);
    }

    @Override
    public List<ColumnShape> columns(String name, ColumnShape.Need need, String meaning) {
        return List.of(
                new ColumnShape(column(name, "fast"), need, meaning + " at the fast corner"),
                new ColumnShape(column(name, "slow"), need, "the same at the slow corner"));
    }

    @Override
    public Cell<V> open(CsvTable table, String name, boolean needed, V otherwise) {
        CsvTable.Column fast = table.column(column(name, "fast"));
        CsvTable.Column slow = table.column(column(name, "slow"));
        return () -> fromCorners.apply(read(table, fast, slow));
    }

    /** A required value; zero after a fault. */
    private AtCorners read(CsvTable table, CsvTable.Column fastColumn, CsvTable.Column slowColumn) {
        for (CsvTable.Column column : List.of(fastColumn, slowColumn)) {
            if (!table.has(column)) {
                table.fault(column, "a whole number", () -> "an empty field");
                return AtCorners.ZERO;
            }
        }
        int fast = table.integer(fastColumn, 0, greatest, 0);
        int slow = table.integer(slowColumn, 0, greatest, fast);
        if (slow < fast) {
            table.fault(
                    slowColumn, "a slow value of at least the fast one, " + fast, () -> "" + slow);
            return AtCorners.ZERO;
        }
        return new AtCorners(fast, slow);
    }

    @Override
    public void addTo(List<Object> row, V value) {
        AtCorners corners = toCorners.apply(value);
        row.add(corners.fast());
        row.add(corners.slow());
    }
}
