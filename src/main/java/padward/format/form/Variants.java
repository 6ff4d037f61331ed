package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.json.JsonShape;
import padward.format.json.Members;
import padward.format.source.Nearest;
import padward.format.source.Text;

/**
 * Records of several types in one place, told apart by a word in one of their members. That member
 * may come last, so the members of all types are declared first; each type then says which of them
 * it has.
 *
 * @param <R> the records' common type
 */
public final class Variants<R> implements Kind<R> {
    private final Field<String> word;
    private final List<Slot> slots = new ArrayList<>();
    private final Map<String, Variant<? extends R>> byWord = new LinkedHashMap<>();
    private final boolean strict;
    private Optional<JsonShape> shape = Optional.empty();

    /**
     * @param tag name of the member with the word
     * @param strict whether members of other types are faults
     */
    public Variants(String tag, boolean strict) {
        this.word = new Field<>(tag, true, Kinds.name(), "").means("which type it is");
        this.strict = strict;
        slots.add(word);
    }

    /** A member of some of the types. */
    public <V> Field<V> member(String name, Kind<V> kind, V usual) {
        Field<V> field = new Field<>(name, false, kind, usual);
        slots.add(field);
        return field;
    }

    /** A member of some of the types. */
    public <V> Field<Optional<V>> member(String name, Kind<V> kind) {
        return member(name, Kinds.present(kind), Optional.empty());
    }

    /** A member of some of the types. */
    public IntField member(String name, IntKind kind, int usual) {
        IntField field = new IntField(name, false, kind, usual);
        slots.add(field);
        return field;
    }

    /** One of the types. */
    public <T extends R> Variant<T> type(String label, Class<T> type) {
        Variant<T> variant = new Variant<>(label, type);
        byWord.put(label, variant);
        return variant;
    }

    @Override
    public R read(JsonIn in) throws BadInput {
        slots.forEach(Slot::clear);
        Members member = in.object(shape());
        while (member.next()) {
            slots.get(member.index()).read(in);
        }
        Variant<? extends R> variant = byWord.get(word.get());
        if (variant == null) {
            throw unknown(in);
        }
        if (strict) {
            variant.refuseOthers(in, word, slots);
        }
        return variant.make(in);
    }

    private JsonShape shape() {
        if (shape.isEmpty()) {
            shape = Optional.of(Form.shape(slots));
        }
        return shape.get();
    }

    private BadInput unknown(JsonIn in) {
        if (strict) {
            List<String> known = byWord.keySet().stream().sorted().toList();
            return in.fault(
                    Text.quote(word.name()) + " with one of " + String.join(", ", known),
                    Nearest.describe(word.get(), known.stream()));
        }
        return in.fault("one of " + String.join(", ", byWord.keySet()), Text.quote(word.get()));
    }

    @Override
    public void write(JsonWriter out, R record) throws IOException {
        out.beginObject();
        for (Variant<? extends R> variant : byWord.values()) {
            if (variant.writes(record)) {
                Output to = new Output.Json(out);
                to.put(word, variant.label());
                variant.writeMembers(to, record);
            }
        }
        out.endObject();
    }

    @Override
    public Schema schema() {
        return byWord.values().stream()
                .map(v -> v.schema(word))
                .collect(Collectors.collectingAndThen(Collectors.toList(), Schema::oneOf));
    }
}
