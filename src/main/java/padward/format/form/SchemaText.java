package padward.format.form;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonPrimitive;
import java.util.List;

/** A schema as JSON. Apart from {@link Schema}, because reading files needs none of this. */
final class SchemaText {
    private static final Gson GSON =
            new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();

    private SchemaText() {}

    /** The text of a file. */
    static String of(Schema schema) {
        return GSON.toJson(json(schema)) + "\n";
    }

    private static JsonElement json(Object value) {
        if (value instanceof Schema schema) {
            JsonObject object = new JsonObject();
            schema.rules().forEach((keyword, rule) -> object.add(keyword, json(rule)));
            return object;
        }
        if (value instanceof List<?> list) {
            JsonArray array = new JsonArray();
            list.forEach(element -> array.add(json(element)));
            return array;
        }
        if (value instanceof Number number) {
            return new JsonPrimitive(number);
        }
        return value instanceof Boolean truth
                ? new JsonPrimitive(truth)
                : new JsonPrimitive((String) value);
    }
}
