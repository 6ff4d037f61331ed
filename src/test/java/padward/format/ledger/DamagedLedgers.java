package padward.format.ledger;

import com.google.gson.Gson;
import com.google.gson.JsonArray;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.function.Consumer;

/** Ledgers that no longer say what was kept, made of the text of one with three entries. */
public final class DamagedLedgers {
    private static final String WRONG = "0".repeat(64);

    private DamagedLedgers() {}

    /** Each damage with the place that its fault names. */
    public static Map<String, String> of(String sound) {
        Map<String, String> all = new LinkedHashMap<>();
        all.put("$.sha256", changed(sound, l -> l.addProperty("sha256", WRONG)));
        all.put(
                "$.entries[0].before",
                changed(sound, l -> entry(l, 0).addProperty("before", WRONG)));
        all.put(
                "$.entries[1].before",
                changed(sound, l -> entry(l, 1).addProperty("before", WRONG)));
        all.put("$.entries[2].after", changed(sound, l -> entry(l, 2).addProperty("after", WRONG)));
        // An entry that brings its net out under another name than the one that was kept.
        all.put(
                "$.entries[1].after",
                changed(
                        sound,
                        l -> {
                            JsonArray edits = entry(l, 1).getAsJsonArray("edits");
                            edits.forEach(e -> rename(e.getAsJsonObject()));
                        }));
        return all;
    }

    private static void rename(JsonObject edit) {
        if (edit.get("do").getAsString().equals("break-out")) {
            edit.addProperty("port", "another");
        }
    }

    private static JsonObject entry(JsonObject ledger, int index) {
        return ledger.getAsJsonArray("entries").get(index).getAsJsonObject();
    }

    private static String changed(String sound, Consumer<JsonObject> change) {
        JsonObject ledger = JsonParser.parseString(sound).getAsJsonObject();
        change.accept(ledger);
        return new Gson().toJson(ledger);
    }
}
