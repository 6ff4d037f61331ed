package padward.format.tables;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.BiConsumer;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.TableFolder;
import padward.format.tables.csv.TableOut;
import padward.format.tables.csv.TableShape;

/** Tables whose rows are records of a form. */
final class FormTables {
    private FormTables() {}

    /** The records of a table; none when there is no such table. */
    static <R> List<R> read(TableFolder folder, TableShape shape, Form<R> form) {
        return read(folder, shape, form, (table, record) -> {});
    }

    /** The same, with a check that reports what does not go together in a row. */
    static <R> List<R> read(
            TableFolder folder, TableShape shape, Form<R> form, BiConsumer<CsvTable, R> check) {
        List<R> all = new ArrayList<>();
        folder.read(
                shape,
                table -> {
                    Kind.Cell<R> record = form.rowsOf(table);
                    while (table.next()) {
                        R read = record.read();
                        check.accept(table, read);
                        all.add(read);
                    }
                });
        return all;
    }

    static <R> void write(TableOut out, TableShape shape, Form<R> form, List<R> all)
            throws IOException {
        out.table(
                shape,
                rows -> {
                    for (R record : all) {
                        rows.printRecord(form.row(record));
                    }
                });
    }
}
