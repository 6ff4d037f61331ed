package padward.format.form;

import com.google.gson.Gson;
import com.google.gson.GsonBuilder;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonPrimitive;
import java.util.List;
import java.util.stream.Stream;
import padward.fabric.FabricLimits;

/** A JSON Schema (draft 2020-12) or a part of one. Immutable. */
public final class Schema {
    private static final String DIALECT = "https://json-schema.org/draft/2020-12/schema";
    private static final Gson GSON =
            new GsonBuilder().setPrettyPrinting().disableHtmlEscaping().create();

    private final JsonObject json;

    private Schema(JsonObject json) {
        this.json = json;
    }

    /** Of every value. */
    public static Schema any() {
        return new Schema(new JsonObject());
    }

    /** Of the values of a type: {@code string}, {@code integer}, … */
    public static Schema type(String type) {
        return any().with("type", type);
    }

    /** Of texts of a length. */
    public static Schema text(int shortest, int longest) {
        Schema text = type("string");
        return (shortest > 0 ? text.with("minLength", shortest) : text).with("maxLength", longest);
    }

    /** Of names. */
    public static Schema name() {
        return text(1, FabricLimits.NAME_LENGTH);
    }

    /** Of whole numbers of a range. */
    public static Schema whole(int least, int greatest) {
        return type("integer").with("minimum", least).with("maximum", greatest);
    }

    /** Of one text. */
    public static Schema constant(String text) {
        return any().with("const", text);
    }

    /** Of a few words. */
    public static Schema oneWordOf(List<String> words) {
        return any().with("enum", texts(words));
    }

    /** Of arrays of any length. */
    public static Schema arrayOf(Schema element) {
        return type("array").with("items", element.json);
    }

    /** Of arrays with just these elements. */
    public static Schema tuple(Schema... elements) {
        return type("array")
                .with("prefixItems", all(List.of(elements)))
                .with("items", false)
                .with("minItems", elements.length);
    }

    /** Of values that fit one of several schemas, and no second one. */
    public static Schema oneOf(List<Schema> choices) {
        return any().with("oneOf", all(choices));
    }

    /** Of objects that have some members. */
    public static Schema having(Slot... members) {
        return any().with("required", texts(Stream.of(members).map(Slot::name).toList()));
    }

    /** Of objects that have a member only together with another. */
    public static Schema onlyWith(Slot member, Slot other) {
        return any().with("dependentRequired", requiring(any(), member, other));
    }

    private static Schema requiring(Schema rules, Slot member, Slot other) {
        return rules.with(member.name(), texts(List.of(other.name())));
    }

    private static JsonArray all(List<Schema> schemas) {
        return array(schemas.stream().map(s -> s.json).toList());
    }

    static JsonArray texts(List<String> texts) {
        return array(texts.stream().map(JsonPrimitive::new).toList());
    }

    private static JsonArray array(List<? extends JsonElement> elements) {
        JsonArray array = new JsonArray();
        elements.forEach(array::add);
        return array;
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, JsonElement value) {
        JsonObject more = json.deepCopy();
        more.add(keyword, value);
        return new Schema(more);
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, String value) {
        return with(keyword, new JsonPrimitive(value));
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, boolean value) {
        return with(keyword, new JsonPrimitive(value));
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, Number value) {
        return with(keyword, new JsonPrimitive(value));
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, Schema value) {
        return with(keyword, value.json);
    }

    /** The same with the keywords of another. */
    public Schema and(Schema more) {
        Schema both = this;
        for (String keyword : more.json.keySet()) {
            both = both.with(keyword, more.json.get(keyword));
        }
        return both;
    }

    /** The same with a remark for people. */
    public Schema meaning(String meaning) {
        return meaning.isEmpty() ? this : with("description", meaning);
    }

    /** The text of the file of a whole schema. */
    public String toFile(String title) {
        return GSON.toJson(any().with("$schema", DIALECT).with("title", title).and(this).json)
                + "\n";
    }
}
