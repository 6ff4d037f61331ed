package padward.format.form;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import padward.fabric.FabricLimits;

/**
 * A JSON Schema (draft 2020-12) or a part of one. Immutable. Every form states one, though few
 * calls print any: {@link SchemaText} turns it into JSON.
 */
public final class Schema implements SchemaRule {
    private static final String DIALECT = "https://json-schema.org/draft/2020-12/schema";
    private static final Schema ANY = new Schema(Map.of());

    private final Map<String, SchemaRule> rules;

    private Schema(Map<String, SchemaRule> rules) {
        this.rules = rules;
    }

    /** Its keywords and their values, in order. */
    Map<String, SchemaRule> rules() {
        return rules;
    }

    @Override
    public <J> J in(Notation<J> notation) {
        return notation.schema(this);
    }

    /** Of every value. */
    public static Schema any() {
        return ANY;
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
        return any().with("enum", words);
    }

    /** Of arrays of any length. */
    public static Schema arrayOf(Schema element) {
        return type("array").with("items", element);
    }

    /** Of arrays with just these elements. */
    public static Schema tuple(Schema... elements) {
        return type("array")
                .withValue("prefixItems", new Several(List.of(elements)))
                .with("items", false)
                .with("minItems", elements.length);
    }

    /** Of values that fit one of several schemas, and no second one. */
    public static Schema oneOf(List<Schema> choices) {
        return any().withValue("oneOf", new Several(choices));
    }

    /** Of objects that have some members. */
    public static Schema having(Slot... members) {
        return any().with("required", Stream.of(members).map(Slot::name).toList());
    }

    /** Of objects that have a member only together with another. */
    public static Schema onlyWith(Slot member, Slot other) {
        return any().with("dependentRequired", requiring(any(), member, other));
    }

    private static Schema requiring(Schema rules, Slot member, Slot other) {
        return rules.with(member.name(), List.of(other.name()));
    }

    private Schema withValue(String keyword, SchemaRule value) {
        Map<String, SchemaRule> more = new LinkedHashMap<>(rules);
        more.put(keyword, value);
        return new Schema(more);
    }

    /** The same with one more keyword, of which the value is some texts. */
    public Schema with(String keyword, List<String> texts) {
        return withValue(keyword, new Several(texts.stream().map(Text::new).toList()));
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, String value) {
        return withValue(keyword, new Text(value));
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, boolean value) {
        return withValue(keyword, new Truth(value));
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, java.lang.Number value) {
        return withValue(keyword, new SchemaRule.Number(value));
    }

    /** The same with one more keyword. */
    public Schema with(String keyword, Schema value) {
        return withValue(keyword, value);
    }

    /** The same with the keywords of another. */
    public Schema and(Schema more) {
        Map<String, SchemaRule> both = new LinkedHashMap<>(rules);
        both.putAll(more.rules);
        return new Schema(both);
    }

    /** The same with a remark for people. */
    public Schema meaning(String meaning) {
        return meaning.isEmpty() ? this : with("description", meaning);
    }

    /** The text of the file of a whole schema. */
    public String toFile(String title) {
        return SchemaText.of(any().with("$schema", DIALECT).with("title", title).and(this));
    }
}
