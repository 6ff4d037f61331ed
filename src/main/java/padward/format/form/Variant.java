package padward.format.form;

import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.function.ToIntFunction;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.source.Text;

/**
 * One of the types of {@link Variants}.
 *
 * @param <T> its records
 */
public final class Variant<T> {
    private final String label;
    private final Class<T> type;
    private final List<Slot> slots = new ArrayList<>();
    private final List<Slot> needed = new ArrayList<>();
    private final List<Slot.Writing<T>> writings = new ArrayList<>();
    private Schema more = Schema.any();
    private Form.Maker<? extends T> maker =
            in -> {
                throw new UnsupportedOperationException("these are never read");
            };

    Variant(String label, Class<T> type) {
        this.label = label;
        this.type = type;
    }

    String label() {
        return label;
    }

    /** Members that each of these records has. */
    public Variant<T> needs(Slot... members) {
        needed.addAll(List.of(members));
        return may(members);
    }

    /** Members that these records may have. */
    public Variant<T> may(Slot... members) {
        slots.addAll(List.of(members));
        return this;
    }

    /** A member that each of these records has. */
    public <V> Variant<T> needs(Field<V> member, Function<? super T, ? extends V> get) {
        writings.add((to, record) -> to.put(member, get.apply(record)));
        return needs(member);
    }

    /** A member that each of these records has. */
    public Variant<T> needs(IntField member, ToIntFunction<? super T> get) {
        writings.add((to, record) -> to.put(member, get.applyAsInt(record)));
        return needs(member);
    }

    /** A member that is written only where it has another value than the usual one. */
    public <V> Variant<T> may(Field<V> member, Function<? super T, ? extends V> get) {
        writings.add(
                (to, record) -> {
                    V value = get.apply(record);
                    if (!member.isUsual(value)) {
                        to.put(member, value);
                    }
                });
        return may(member);
    }

    /** Says in the schema, too, what goes together; whoever makes a record checks it. */
    public Variant<T> require(Schema rule) {
        more = more.and(rule);
        return this;
    }

    /** How one is made of the values that were read. */
    public void makes(Supplier<? extends T> made) {
        maker = in -> made.get();
    }

    /** How one is made of the values that were read, unless these clash. */
    public void makes(Form.Maker<? extends T> made) {
        maker = made;
    }

    T make(JsonIn in) throws BadInput {
        Fields.need(in, needed.toArray(new Slot[0]));
        return maker.make(in);
    }

    /** Throws the fault of a member that was read and is none of these records'. */
    void refuseOthers(JsonIn in, Field<String> word, List<Slot> all) throws BadInput {
        for (Slot slot : all) {
            if (slot != word && slot.isGiven() && !slots.contains(slot)) {
                throw in.fault(
                        "with "
                                + Text.quote(word.name())
                                + " "
                                + Text.quote(label)
                                + " only "
                                + members(),
                        "member " + Text.quote(slot.name()));
            }
        }
    }

    /** The names of its members, sorted. */
    public String members() {
        return slots.stream().map(Slot::name).sorted().collect(Collectors.joining(", "));
    }

    boolean writes(Object record) {
        return type.isInstance(record);
    }

    void writeMembers(Output to, Object record) throws IOException {
        for (Slot.Writing<T> writing : writings) {
            writing.write(to, type.cast(record));
        }
    }

    Schema schema(Field<String> word) {
        Field<String> constant =
                new Field<>(word.name(), true, Kinds.constant(label), label).means(word.meaning());
        List<Slot> all = new ArrayList<>(slots);
        all.add(0, constant);
        return Form.object(all, slot -> slot == constant || needed.contains(slot)).and(more);
    }
}
