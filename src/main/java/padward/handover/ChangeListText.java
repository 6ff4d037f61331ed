package padward.handover;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.format.form.JsonText;

/** Change lists as JSON (RFC 8259) and as CSV (RFC 4180). */
public final class ChangeListText {
    private ChangeListText() {}

    /** One JSON object, as changes.schema.json describes it. */
    public static String json(ChangeList list) {
        return JsonText.pretty(ChangeListForm.form(), list) + "\n";
    }

    /** The schema of that object. */
    public static String schema() {
        return ChangeListForm.form().schema().toFile("Padward change list");
    }

    /** A table, one elementary change a row. */
    public static String csv(ChangeList list) {
        StringBuilder text = new StringBuilder();
        try (CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            List<String> head = new ArrayList<>(List.of("entry", "what"));
            head.addAll(ChangeList.COLUMNS);
            out.printRecord(head);
            for (ChangeList.Entry entry : list.entries()) {
                for (Change change : entry.changes()) {
                    List<Object> row = new ArrayList<>();
                    row.add(entry.number());
                    row.add(change.what().label());
                    ChangeList.COLUMNS.forEach(c -> row.add(change.get(c)));
                    out.printRecord(row);
                }
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException("nothing is written outside memory", impossible);
        }
        return text.toString();
    }
}
