package padward.handover;

import com.google.gson.GsonBuilder;
import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.breakout.ask.Cautions;
import padward.change.LedgerEntry;

/** Change lists as JSON (RFC 8259) and as CSV (RFC 4180). */
public final class ChangeText {
    private ChangeText() {}

    /** One JSON object, as changes.schema.json describes it. */
    public static String json(ChangeList list) {
        JsonObject result = new JsonObject();
        result.addProperty("format", "padward-changes/1");
        result.addProperty("design", list.ledger().design());
        result.addProperty("sha256", list.ledger().digest());
        result.addProperty("fabric", list.fabric());
        result.addProperty("back", list.back());
        JsonArray entries = new JsonArray();
        list.entries().forEach(e -> entries.add(entry(e)));
        result.add("entries", entries);
        result.addProperty("footer", Cautions.FOOTER);
        return new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create().toJson(result)
                + "\n";
    }

    private static JsonObject entry(ChangeList.Entry entry) {
        LedgerEntry kept = entry.entry();
        JsonObject result = new JsonObject();
        result.addProperty("number", entry.number());
        result.addProperty("when", kept.when());
        result.addProperty("who", kept.who());
        result.addProperty("note", kept.note());
        result.addProperty("net", kept.net());
        result.addProperty("pad", kept.pad());
        JsonArray changes = new JsonArray();
        for (Change change : entry.changes()) {
            JsonObject one = new JsonObject();
            one.addProperty("what", change.what().label());
            change.facts().forEach(one::addProperty);
            changes.add(one);
        }
        result.add("changes", changes);
        JsonArray cautions = new JsonArray();
        for (Cautions.Shared shared : entry.cautions()) {
            JsonObject one = new JsonObject();
            one.addProperty("kind", shared.caution().kind().label());
            one.addProperty("serious", shared.caution().kind().isSerious());
            one.addProperty("text", shared.caution().text());
            JsonArray pads = new JsonArray();
            shared.pads().forEach(pads::add);
            one.add("pads", pads);
            cautions.add(one);
        }
        result.add("cautions", cautions);
        return result;
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
