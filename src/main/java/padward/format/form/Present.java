package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.Optional;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/**
 * A value that some records have. In tables it has columns of the record's own row; a row has the
 * value when any of them is filled, and then all that the value needs.
 */
record Present<V>(Kind<V> kind) implements Kind<Optional<V>> {
    @Override
    public Optional<V> read(JsonIn in) throws BadInput {
        return Optional.of(kind.read(in));
    }

    @Override
    public void write(JsonWriter out, Optional<V> value) throws IOException {
        kind.write(out, value.orElseThrow());
    }

    @Override
    public Schema schema() {
        return kind.schema();
    }

    @Override
    public List<ColumnShape> columns(String name, ColumnShape.Need need, String meaning) {
        return kind.columns(name, need, meaning).stream()
                .map(c -> new ColumnShape(c.name(), ColumnShape.Need.MAY, c.meaning()))
                .toList();
    }

    @Override
    public Cell<Optional<V>> open(
            CsvTable table, String name, boolean needed, Optional<V> otherwise) {
        List<ColumnShape> all = kind.columns(name, ColumnShape.Need.MUST, "");
        List<CsvTable.Column> columns = all.stream().map(c -> table.column(c.name())).toList();
        List<CsvTable.Column> must =
                all.stream()
                        .filter(c -> c.need() == ColumnShape.Need.MUST)
                        .map(c -> table.column(c.name()))
                        .toList();
        Cell<V> value =
                columns.isEmpty()
                        ? () -> otherwise.orElseThrow()
                        : kind.open(table, name, true, null);
        return () -> {
            if (columns.stream().noneMatch(table::has)) {
                return otherwise;
            }
            for (CsvTable.Column column : must) {
                if (!table.has(column)) {
                    CsvTable.Column stated =
                            columns.stream().filter(table::has).findFirst().orElseThrow();
                    table.fault(
                            column,
                            "a value, since " + stated.name() + " is filled in",
                            () -> "an empty field");
                    return otherwise;
                }
            }
            return Optional.of(value.read());
        };
    }

    @Override
    public void addTo(List<Object> row, Optional<V> value) {
        kind.addTo(row, value.orElseThrow());
    }
}
