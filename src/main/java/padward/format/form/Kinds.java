package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.function.IntFunction;
import java.util.function.IntSupplier;
import java.util.function.Supplier;
import java.util.stream.Stream;
import padward.base.BadInput;
import padward.fabric.FabricLimits;
import padward.fabric.delay.AtCorners;
import padward.fabric.delay.Delay;
import padward.format.json.EnumWords;
import padward.format.json.JsonIn;
import padward.format.json.Names;
import padward.format.source.Nearest;
import padward.format.source.Text;
import padward.format.tables.csv.CsvTable;
import padward.format.tables.csv.Listed;
import padward.format.tables.csv.TableOut;

/** The kinds of value that fields have. */
public final class Kinds {
    private Kinds() {}

    private static Kind<String> inFiles(JsonIn.Element<String> reading, Supplier<Schema> schema) {
        return Kind.of(reading, JsonWriter::value, schema);
    }

    /** A name: not empty, no control characters. */
    public static Kind<String> name() {
        return Plain.text(
                JsonIn::name, Schema.name(), (table, column, other) -> table.name(column));
    }

    /** Names, in tables with {@code |} between them. */
    public static Kind<List<String>> names() {
        Kind<List<String>> inFiles = list(name());
        return new Plain<>(
                inFiles::read,
                inFiles::write,
                inFiles.schema(),
                (table, column, other) -> Listed.split(table.name(column)),
                Listed::join,
                List.of(),
                "names with `|` between them: ");
    }

    /** A name that is common in the file, or an empty text. */
    public static Kind<String> word() {
        return Plain.text(
                JsonIn::word,
                Schema.text(0, FabricLimits.NAME_LENGTH),
                (table, column, other) -> table.has(column) ? table.word(column) : other);
    }

    /** A digest of a file's bytes or of a design: SHA-256 (FIPS 180-4), 64 hexadecimal digits. */
    public static Kind<String> digest() {
        return name().limited(Schema.any().with("pattern", "^[0-9a-f]{64}$"));
    }

    /** Any text. */
    public static Kind<String> text(int longest) {
        return inFiles(in -> in.text(longest), () -> Schema.text(0, longest));
    }

    /** A text that says something. */
    public static Kind<String> prose(int longest) {
        return inFiles(
                in -> {
                    String text = in.text(longest);
                    if (text.isBlank()) {
                        throw in.fault("a text", "an empty one");
                    }
                    return text;
                },
                () -> Schema.text(1, longest));
    }

    /** A name that nothing else of its sort has; it is added to the names. */
    public static Kind<String> newName(Names names) {
        return Plain.text(
                names::readNew,
                Schema.name(),
                (table, column, other) -> {
                    String name = table.name(column);
                    if (!names.add(name)) {
                        table.fault(column, "each name once", () -> Text.quote(name) + " again");
                    }
                    return name;
                });
    }

    /** A name that is known. */
    public static Kind<String> knownName(Names names) {
        return inFiles(names::readKnownName, Schema::name);
    }

    /** As {@link #word}, of names that are checked when the record is made. */
    public static Kind<String> checkedName() {
        return inFiles(JsonIn::word, Schema::name);
    }

    /** As {@link #name}, of names that many records share. */
    public static Kind<String> sharedName() {
        return inFiles(
                in -> {
                    String word = in.word();
                    if (word.isEmpty()) {
                        throw in.fault("a name", "an empty text");
                    }
                    return word;
                },
                Schema::name);
    }

    /** As {@link #knownName}, of names that many records share. */
    public static Kind<String> knownWord(Names names) {
        return inFiles(
                in -> {
                    String word = in.word();
                    names.check(in, word);
                    return word;
                },
                Schema::name);
    }

    /** A name that is known, or an empty text. */
    public static Kind<String> knownOrNone(Names names) {
        return Plain.text(
                in -> {
                    String word = in.word();
                    if (!word.isEmpty()) {
                        names.check(in, word);
                    }
                    return word;
                },
                Schema.text(0, FabricLimits.NAME_LENGTH),
                (table, column, other) -> {
                    String word = table.word(column);
                    if (!word.isEmpty()) {
                        requireKnown(table, column, names, word);
                    }
                    return word;
                });
    }

    /** Reports a field of a table that has none of the known names. */
    public static void requireKnown(
            CsvTable table, CsvTable.Column column, Names names, String word) {
        if (names.number(word).isEmpty()) {
            table.fault(
                    column,
                    "the name of a " + names.sort(),
                    () -> Nearest.describe(word, names.stream()));
        }
    }

    /** True or false; in tables {@code yes} or {@code no}. */
    public static Kind<Boolean> flag() {
        return new Plain<>(
                JsonIn::flag,
                JsonWriter::value,
                Schema.type("boolean"),
                (table, column, other) -> table.flag(column, other),
                TableOut::yes,
                false,
                "`yes` or `no`: ");
    }

    /** A number of a range from one whole number to another, both ends included. */
    public static Kind<Double> real(int least, int greatest) {
        return new Plain<>(
                in -> in.real(least, greatest),
                JsonWriter::value,
                Schema.type("number").with("minimum", least).with("maximum", greatest),
                (table, column, other) -> table.real(column, least, greatest, other),
                value -> value,
                (double) least,
                "");
    }

    /** One of a few words. */
    public static <V> Kind<V> choice(V[] values, Function<V, String> label) {
        return new Plain<>(
                in -> in.oneOf(values, label),
                (out, value) -> out.value(label.apply(value)),
                Schema.oneWordOf(Stream.of(values).map(label).toList()),
                (table, column, other) -> table.oneOf(column, values, label, other),
                label::apply,
                values[0],
                "");
    }

    /** One of the constants of an enumeration, spelled as {@link EnumWords} does. */
    public static <V extends Enum<V>> Kind<V> choice(V[] values) {
        return choice(values, EnumWords::of);
    }

    /** A whole number of a range, both ends included. */
    public static IntKind whole(int least, int greatest) {
        return new Whole(least, greatest);
    }

    private record Whole(int least, int greatest) implements IntKind {
        @Override
        public int read(JsonIn in) throws BadInput {
            return in.integer(least, greatest);
        }

        @Override
        public void write(JsonWriter out, int value) throws IOException {
            out.value(value);
        }

        @Override
        public Schema schema() {
            return Schema.whole(least, greatest);
        }

        @Override
        public Cell open(CsvTable table, String name, boolean needed, int otherwise) {
            CsvTable.Column column = table.column(name);
            return () -> {
                if (needed && !table.has(column)) {
                    table.fault(column, "a whole number", () -> "an empty field");
                }
                return table.integer(column, least, greatest, otherwise);
            };
        }
    }

    /**
     * A whole number from 0 to just below a limit that is known when it is read.
     *
     * @param greatest what the limit is never above
     */
    public static IntKind wholeBelow(IntSupplier limit, int greatest) {
        return IntKind.of(
                in -> in.integer(0, limit.getAsInt() - 1),
                JsonWriter::value,
                () -> Schema.whole(0, greatest - 1));
    }

    /** Things with names and numbers, as wires, sites and pads are. */
    public static IntKind named(IntKind.Reading reading, IntFunction<String> name) {
        return IntKind.of(reading, (out, number) -> out.value(name.apply(number)), Schema::name);
    }

    /** As {@link #named}, or an empty text. */
    public static IntKind namedOrNone(IntKind.Reading reading, IntFunction<String> name) {
        return IntKind.of(
                reading,
                (out, number) -> out.value(name.apply(number)),
                () -> Schema.text(0, FabricLimits.NAME_LENGTH));
    }

    /** Two whole numbers. */
    public static Kind<Pair> pair(IntKind each) {
        return Kind.of(
                in -> {
                    in.beginArray();
                    Pair pair = new Pair(each.read(in), each.read(in));
                    in.endArray();
                    return pair;
                },
                (out, pair) -> {
                    out.beginArray();
                    each.write(out, pair.first());
                    each.write(out, pair.second());
                    out.endArray();
                },
                () -> Schema.tuple(each.schema(), each.schema()));
    }

    /** Always the same text, which was checked before. */
    static Kind<String> constant(String text) {
        return Kind.of(
                in -> {
                    in.skip();
                    return text;
                },
                JsonWriter::value,
                () -> Schema.constant(text));
    }

    /** {@code [fast, slow]} in picoseconds; in tables in any of several units. */
    public static Kind<Delay> delay() {
        return new DelayKind();
    }

    /** A value at both corners, {@code [fast, slow]}; in tables two columns. */
    public static Kind<AtCorners> atCorners(int greatest) {
        return new CornersKind<>(
                in -> {
                    in.beginArray();
                    int fast = in.integer(0, greatest);
                    int slow = in.integer(0, greatest);
                    if (fast > slow) {
                        throw in.fault("a slow value of at least the fast one, " + fast, "" + slow);
                    }
                    in.endArray();
                    return new AtCorners(fast, slow);
                },
                greatest,
                value -> value,
                value -> value);
    }

    /** As {@link #delay}, in tables two columns only. */
    public static Kind<Delay> delayInTwoColumns() {
        return new CornersKind<>(
                JsonIn::delay,
                FabricLimits.EDGE_DELAY_PS,
                delay -> new AtCorners(delay.fastPs(), delay.slowPs()),
                value -> new Delay(value.fast(), value.slow()));
    }

    /** Values one after the other. */
    public static <V> Kind<List<V>> list(Kind<V> each) {
        return Kind.of(
                in -> in.list(each::read),
                (out, values) -> {
                    out.beginArray();
                    for (V value : values) {
                        each.write(out, value);
                    }
                    out.endArray();
                },
                () -> Schema.arrayOf(each.schema()));
    }

    /** Texts under any names; written in the order of these. */
    public static Kind<Map<String, String>> texts() {
        return Kind.of(
                JsonIn::texts,
                (out, texts) -> {
                    out.beginObject();
                    for (Map.Entry<String, String> entry : new TreeMap<>(texts).entrySet()) {
                        out.name(entry.getKey()).value(entry.getValue());
                    }
                    out.endObject();
                },
                () ->
                        Schema.type("object")
                                .with("propertyNames", Schema.text(1, FabricLimits.NAME_LENGTH))
                                .with(
                                        "additionalProperties",
                                        Schema.text(0, FabricLimits.NAME_LENGTH)));
    }

    /** A value that some records have. */
    public static <V> Kind<Optional<V>> present(Kind<V> kind) {
        return new Present<>(kind);
    }

    /** A number that is there. */
    static Kind<OptionalInt> present(IntKind kind) {
        return kind.boxed().as((in, value) -> OptionalInt.of(value), OptionalInt::getAsInt);
    }
}
