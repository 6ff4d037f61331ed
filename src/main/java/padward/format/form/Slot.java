package padward.format.form;

import java.io.IOException;
import java.util.List;
import java.util.Locale;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.tables.csv.ColumnShape;
import padward.format.tables.csv.CsvTable;

/**
 * The place of one field's value while a record is read, with what its declaration says of the
 * field. A form has one for each field and uses it for record after record, so that nothing has to
 * be made for a value.
 */
public abstract sealed class Slot permits Field, IntField {
    private final String name;
    private final boolean needed;
    private String meaning = "";
    private String[] after = {};
    private String column;
    private boolean given;

    Slot(String name, boolean needed) {
        this.name = name;
        this.needed = needed;
        this.column = name.replaceAll("([A-Z])", "_$1").toLowerCase(Locale.ROOT);
    }

    final String columnName() {
        return column;
    }

    final void explain(String text) {
        meaning = text;
    }

    /** Gives its column in tables another name than its own. */
    final void nameColumn(String other) {
        column = other;
    }

    final ColumnShape.Need need() {
        return needed ? ColumnShape.Need.MUST : ColumnShape.Need.MAY;
    }

    /** Its name in JSON. */
    public final String name() {
        return name;
    }

    /** Whether every record has it. */
    public final boolean isNeeded() {
        return needed;
    }

    /** What it means, for people, with its unit. */
    public final String meaning() {
        return meaning;
    }

    /** Whether the record that was read last has it. */
    public final boolean isGiven() {
        return given;
    }

    /** Says that it refers to other fields of a file, which are read before it. */
    public final void after(String... others) {
        after = others;
    }

    final String[] after() {
        return after;
    }

    /** Makes ready for the next record. */
    void clear() {
        given = false;
    }

    final void read(JsonIn in) throws BadInput {
        readValue(in);
        given = true;
    }

    abstract void readValue(JsonIn in) throws BadInput;

    /** What a validator can check of its value, with its meaning. */
    abstract Schema schema();

    /** Its columns in a table; none when it is in tables of its own. */
    abstract List<ColumnShape> columns();

    /** Makes ready for the rows of a table. */
    abstract void open(CsvTable table);

    /** Reads the value in the present row. */
    abstract void readRow();

    /** How the field of a record is written. */
    interface Writing<R> {
        void write(Output to, R record) throws IOException;
    }
}
