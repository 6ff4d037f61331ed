package padward.format;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.Test;

/** {@code docs/fields.md} lists the fields that the forms of files declare. */
class FieldsPageTest {
    private static final Path PAGE = Path.of("docs/fields.md");
    private static final String INTRODUCTION =
            """
            # Every field of every file

            This page is generated from the declarations with which files are read and written. [formats.md](formats.md) has
            examples and what goes together. A field without "yes" may be left out. A name has 1 to 1,000 characters.
            """;

    @Test
    void thePageListsWhatTheFormsDeclare() throws Exception {
        assertThat(Files.readString(PAGE)).isEqualTo(page());
    }

    /** A field that nobody explains helps nobody; the format itself needs no words. */
    @Test
    void everyFieldIsExplained() {
        assertThat(page().lines().filter(l -> l.endsWith("|  |")))
                .allMatch(l -> l.contains("`format`") || l.contains("`form`"));
    }

    /** Writes the page. */
    public static void main(String[] args) throws Exception {
        Files.writeString(PAGE, page());
    }

    private static String page() {
        StringBuilder page = new StringBuilder(INTRODUCTION);
        new TreeMap<>(SchemaFilesTest.all())
                .forEach(
                        (name, text) -> {
                            JsonObject schema = JsonParser.parseString(text).getAsJsonObject();
                            List<JsonObject> forms = choices(schema);
                            for (JsonObject form : forms) {
                                String which =
                                        forms.size() == 1 ? name : name + ", " + formOf(form);
                                page.append("\n## ").append(capital(which)).append("\n");
                                section(page, "", form);
                            }
                        });
        return page.toString();
    }

    private static String capital(String text) {
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    private static String formOf(JsonObject schema) {
        return schema.getAsJsonObject("properties")
                .getAsJsonObject("form")
                .get("const")
                .getAsString();
    }

    /** The schemas of objects that a value may fit; none when it is no object. */
    private static List<JsonObject> choices(JsonObject schema) {
        if (schema.has("properties")) {
            return List.of(schema);
        }
        List<JsonObject> all = new ArrayList<>();
        if (schema.has("oneOf")) {
            elements(schema, "oneOf").forEach(e -> all.addAll(choices(e.getAsJsonObject())));
        } else if (isList(schema)) {
            all.addAll(choices(schema.getAsJsonObject("items")));
        }
        return all;
    }

    private static boolean isList(JsonObject schema) {
        return schema.has("items") && schema.get("items").isJsonObject();
    }

    private static Iterable<JsonElement> elements(JsonObject schema, String keyword) {
        return schema.has(keyword) ? schema.getAsJsonArray(keyword) : new JsonArray();
    }

    private static List<String> texts(JsonObject schema, String keyword) {
        return StreamSupport.stream(elements(schema, keyword).spliterator(), false)
                .map(JsonElement::getAsString)
                .toList();
    }

    private static void section(StringBuilder page, String path, JsonObject object) {
        page.append("\n| field | needed | value | meaning |\n|---|---|---|---|\n");
        JsonObject fields = object.getAsJsonObject("properties");
        List<String> needed = texts(object, "required");
        for (String field : fields.keySet()) {
            row(page, field, needed.contains(field) ? "yes" : "", fields.getAsJsonObject(field));
        }
        nested(page, path, fields);
    }

    private static void row(StringBuilder page, String field, String needed, JsonObject schema) {
        String meaning = schema.has("description") ? schema.get("description").getAsString() : "";
        page.append("| `").append(field).append("` | ").append(needed).append(" | ");
        page.append(value(schema)).append(" | ").append(meaning).append(" |\n");
    }

    private static void nested(StringBuilder page, String path, JsonObject fields) {
        for (String field : fields.keySet()) {
            List<JsonObject> inside = choices(fields.getAsJsonObject(field));
            String name = path.isEmpty() ? field : path + "." + field;
            if (!inside.isEmpty()) {
                page.append("\n### `").append(name).append("`\n");
            }
            if (inside.size() == 1) {
                section(page, name, inside.get(0));
            } else if (!inside.isEmpty()) {
                types(page, name, inside);
            }
        }
    }

    /** Types that a word tells apart: which fields each has, and what the fields are. */
    private static void types(StringBuilder page, String path, List<JsonObject> types) {
        Map<String, JsonObject> fields = new LinkedHashMap<>();
        String tag = types.get(0).getAsJsonObject("properties").keySet().iterator().next();
        boolean words =
                types.get(0).getAsJsonObject("properties").getAsJsonObject(tag).has("const");
        page.append("\n| ")
                .append(words ? "`" + tag + "`" : "either")
                .append(" | needed | optional |\n");
        page.append("|---|---|---|\n");
        for (JsonObject type : types) {
            JsonObject own = type.getAsJsonObject("properties");
            List<String> needed =
                    texts(type, "required").stream().filter(n -> !words || !n.equals(tag)).toList();
            String word =
                    words ? "`" + own.getAsJsonObject(tag).get("const").getAsString() + "`" : "";
            List<String> others =
                    own.keySet().stream()
                            .filter(f -> !needed.contains(f) && !(words && f.equals(tag)))
                            .toList();
            page.append("| ").append(word).append(" | ").append(quoted(needed)).append(" | ");
            page.append(quoted(others)).append(" |\n");
            own.keySet().stream()
                    .filter(f -> !words || !f.equals(tag))
                    .forEach(f -> fields.putIfAbsent(f, own.getAsJsonObject(f)));
        }
        JsonObject all = new JsonObject();
        fields.forEach(all::add);
        page.append("\n| field | value | meaning |\n|---|---|---|\n");
        for (String field : fields.keySet()) {
            StringBuilder row = new StringBuilder();
            row(row, field, "", fields.get(field));
            page.append(row.toString().replaceFirst(" {2}\\| ", " "));
        }
        nested(page, path, all);
    }

    private static String quoted(List<String> names) {
        return names.isEmpty()
                ? "–"
                : names.stream().map(n -> "`" + n + "`").collect(Collectors.joining(", "));
    }

    private static String value(JsonObject schema) {
        if (schema.has("const")) {
            return "`" + schema.get("const").getAsString() + "`";
        }
        if (schema.has("enum")) {
            return quoted(texts(schema, "enum"));
        }
        if (schema.has("prefixItems")) {
            List<String> parts = new ArrayList<>();
            elements(schema, "prefixItems").forEach(e -> parts.add(value(e.getAsJsonObject())));
            boolean alike = parts.stream().distinct().count() == 1;
            return alike
                    ? "[" + parts.size() + " times: " + parts.get(0) + "]"
                    : "[" + String.join(", ", parts) + "]";
        }
        if (isList(schema)) {
            return "list of: " + value(schema.getAsJsonObject("items"));
        }
        if (schema.has("oneOf") && !schema.has("properties")) {
            return StreamSupport.stream(elements(schema, "oneOf").spliterator(), false)
                    .map(e -> value(e.getAsJsonObject()))
                    .distinct()
                    .collect(Collectors.joining(", or "));
        }
        return plain(schema);
    }

    private static String plain(JsonObject schema) {
        String type = schema.get("type").getAsString();
        switch (type) {
            case "boolean":
                return "true or false";
            case "integer":
            case "number":
                String kind = type.equals("integer") ? "whole number" : "number";
                return kind + " from " + schema.get("minimum") + " to " + schema.get("maximum");
            case "object":
                return schema.has("properties") ? "object, see below" : "object with texts";
            default:
                boolean name =
                        schema.has("minLength") && schema.get("maxLength").getAsInt() == 1000;
                return name ? "name" : "text";
        }
    }
}
