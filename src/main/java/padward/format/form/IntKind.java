package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.function.Supplier;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/**
 * As {@link Kind}, of whole numbers and of what has a number, like a tile or a pad: millions of
 * them are read without an object for each.
 */
public interface IntKind {
    /** Reads a value that comes next. */
    int read(JsonIn in) throws BadInput;

    /** Writes a value where one is due. */
    void write(JsonWriter out, int value) throws IOException;

    /** What a general validator can check of it. */
    Schema schema();

    /** Its columns in a table. */
    default List<ColumnShape> columns(String name, ColumnShape.Need need, String meaning) {
        return List.of(new ColumnShape(name, need, meaning));
    }

    /** Its columns in an opened table. */
    default Cell open(CsvTable table, String name, boolean needed, int otherwise) {
        return () -> otherwise;
    }

    /** Adds the fields of its columns to a row. */
    default void addTo(List<Object> row, int value) {
        row.add(value);
    }

    /** The value in the present row of a table. */
    interface Cell {
        /** Reads it; a fault is reported to the table, and some sound value returned. */
        int read();
    }

    /** Reads a number in JSON. */
    interface Reading {
        int read(JsonIn in) throws BadInput;
    }

    /** Writes a number in JSON. */
    interface Writing {
        void write(JsonWriter out, int value) throws IOException;
    }

    /** A kind of number that stands in files only. */
    static IntKind of(Reading reading, Writing writing, Supplier<Schema> schema) {
        return new IntKind() {
            @Override
            public int read(JsonIn in) throws BadInput {
                return reading.read(in);
            }

            @Override
            public void write(JsonWriter out, int value) throws IOException {
                writing.write(out, value);
            }

            @Override
            public Schema schema() {
                return schema.get();
            }
        };
    }

    /** The same values as objects. */
    default Kind<Integer> boxed() {
        return Kind.of(this::read, this::write, this::schema);
    }
}
