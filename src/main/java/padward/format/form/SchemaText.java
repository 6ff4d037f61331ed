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
        return GSON.toJson(schema.in(new Json())) + "\n";
    }

    /** The notation that files have. */
    private static final class Json implements SchemaRule.Notation<JsonElement> {
        @Override
        public JsonElement text(String text) {
            return new JsonPrimitive(text);
        }

        @Override
        public JsonElement number(Number number) {
            return new JsonPrimitive(number);
        }

        @Override
        public JsonElement truth(boolean truth) {
            return new JsonPrimitive(truth);
        }

        @Override
        public JsonElement several(List<? extends SchemaRule> values) {
            JsonArray array = new JsonArray();
            values.forEach(value -> array.add(value.in(this)));
            return array;
        }

        @Override
        public JsonElement schema(Schema schema) {
            JsonObject object = new JsonObject();
            schema.rules().forEach((keyword, rule) -> object.add(keyword, rule.in(this)));
            return object;
        }
    }
}
