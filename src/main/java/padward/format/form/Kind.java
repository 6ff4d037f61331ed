package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/**
 * What sort of value a field has: how it is read, written and described.
 *
 * @param <V> its values
 */
public interface Kind<V> {
    /** Reads a value that comes next. */
    V read(JsonIn in) throws BadInput;

    /** Writes a value where one is due. */
    void write(JsonWriter out, V value) throws IOException;

    /** What a general validator can check of it. */
    Schema schema();

    /** Its columns in a table; none for what stands in tables of its own. */
    default List<ColumnShape> columns(String name, ColumnShape.Need need, String meaning) {
        return List.of();
    }

    /** Its columns in an opened table. */
    default Cell<V> open(CsvTable table, String name, boolean needed, V otherwise) {
        return () -> otherwise;
    }

    /** Adds the fields of its columns to a row. */
    default void addTo(List<Object> row, V value) {}

    /** The value in the present row of a table. */
    interface Cell<V> {
        /** Reads it; a fault is reported to the table, and some sound value returned. */
        V read();
    }

    /** Writes a value in JSON. */
    interface Writing<V> {
        void write(JsonWriter out, V value) throws IOException;
    }

    /** A kind of value that stands in files only. */
    static <V> Kind<V> of(
            JsonIn.Element<? extends V> reading, Writing<V> writing, Supplier<Schema> schema) {
        return new Kind<>() {
            @Override
            public V read(JsonIn in) throws BadInput {
                return reading.read(in);
            }

            @Override
            public void write(JsonWriter out, V value) throws IOException {
                writing.write(out, value);
            }

            @Override
            public Schema schema() {
                return schema.get();
            }
        };
    }

    /** Another type for the same values, in files. */
    default <W> Kind<W> as(Converter<V, W> reading, Function<? super W, ? extends V> writing) {
        return of(
                in -> reading.convert(in, read(in)),
                (out, value) -> write(out, writing.apply(value)),
                this::schema);
    }

    /** The same values, in files, as far as they pass a check. */
    default Kind<V> checked(Check<V> check) {
        return as(
                (in, value) -> {
                    check.run(in, value);
                    return value;
                },
                value -> value);
    }

    /** The same values, in files, of which the schema says more. */
    default Kind<V> limited(Schema rule) {
        return of(this::read, this::write, () -> schema().and(rule));
    }

    /** Makes a value of another type of one that was just read. */
    interface Converter<V, W> {
        W convert(JsonIn in, V value) throws BadInput;
    }

    /** Refuses some values that were just read. */
    interface Check<V> {
        void run(JsonIn in, V value) throws BadInput;
    }
}
