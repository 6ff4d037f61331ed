package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.Supplier;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.json.JsonShape;
import padward.format.json.Members;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableShape;

/**
 * The form of a record, as {@link Fields} declares it. Reading uses the slots of the fields, so a
 * form reads one record at a time and belongs to one thread; forms are cheap and made for each
 * file, with the names that are known in it.
 *
 * @param <R> the records
 */
public final class Form<R> implements Kind<R> {
    private final Slot[] slots;
    private final List<Slot.Writing<R>> writings;
    private final Maker<? extends R> maker;
    private final Supplier<? extends R> plainMaker;
    private final Schema more;
    private final JsonShape shape;

    Form(
            List<Slot> slots,
            List<Slot.Writing<R>> writings,
            Maker<? extends R> maker,
            Supplier<? extends R> plainMaker,
            Schema more) {
        this.slots = slots.toArray(new Slot[0]);
        this.writings = List.copyOf(writings);
        this.maker = maker;
        this.plainMaker = plainMaker;
        this.more = more;
        this.shape = shape(slots);
    }

    static JsonShape shape(List<Slot> slots) {
        return JsonShape.of(
                slots.stream()
                        .map(s -> s.isNeeded() ? s.name() + "!" : s.name())
                        .toArray(String[]::new));
    }

    /** Makes a record of the values that were read, where their fields are asked for them. */
    public interface Maker<R> {
        /**
         * Makes it.
         *
         * @throws BadInput when the values do not go together
         */
        R make(JsonIn in) throws BadInput;
    }

    @Override
    public R read(JsonIn in) throws BadInput {
        readFields(in);
        return maker.make(in);
    }

    void readFields(JsonIn in) throws BadInput {
        clear();
        Members member = in.object(shape);
        while (member.next()) {
            slots[member.index()].read(in);
        }
    }

    void clear() {
        for (Slot slot : slots) {
            slot.clear();
        }
    }

    @Override
    public void write(JsonWriter out, R record) throws IOException {
        out.beginObject();
        writeTo(new Output.Json(out), record);
        out.endObject();
    }

    private void writeTo(Output to, R record) throws IOException {
        for (Slot.Writing<R> writing : writings) {
            writing.write(to, record);
        }
    }

    /** The shape of a table with a row for each record. */
    public TableShape table(String name, String meaning) {
        return new TableShape(name, meaning, columns());
    }

    private List<ColumnShape> columns() {
        return Stream.of(slots).flatMap(s -> s.columns().stream()).toList();
    }

    /** Its rows in a table that was opened. */
    public Cell<R> rowsOf(CsvTable table) {
        for (Slot slot : slots) {
            slot.open(table);
        }
        return () -> {
            for (Slot slot : slots) {
                slot.readRow();
            }
            return plainMaker.get();
        };
    }

    /** Its columns as part of the row of another record. */
    @Override
    public List<ColumnShape> columns(String name, ColumnShape.Need need, String meaning) {
        return columns();
    }

    @Override
    public Cell<R> open(CsvTable table, String name, boolean needed, R otherwise) {
        return rowsOf(table);
    }

    @Override
    public void addTo(List<Object> row, R record) {
        try {
            writeTo(new Output.Row(row), record);
        } catch (IOException impossible) {
            throw new UncheckedIOException("a row is in memory", impossible);
        }
    }

    /** The row of a record. */
    public List<Object> row(R record) {
        List<Object> row = new ArrayList<>();
        addTo(row, record);
        return row;
    }

    R make() {
        return plainMaker.get();
    }

    @Override
    public Schema schema() {
        return object(List.of(slots), Slot::isNeeded).and(more);
    }

    /** Of objects with these fields and no others. */
    static Schema object(List<Slot> slots, Predicate<Slot> isNeeded) {
        Schema properties = Schema.any();
        for (Slot slot : slots) {
            properties = properties.with(slot.name(), slot.schema());
        }
        List<String> needed = slots.stream().filter(isNeeded).map(Slot::name).toList();
        Schema object = Schema.type("object").with("properties", properties);
        return (needed.isEmpty() ? object : object.with("required", needed))
                .with("additionalProperties", false);
    }
}
