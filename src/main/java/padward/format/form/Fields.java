package padward.format.form;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.function.Function;
import java.util.function.Supplier;
import java.util.function.ToIntFunction;
import padward.base.BadInput;
import padward.format.json.JsonIn;
import padward.format.source.Text;

/**
 * Declares a record: its fields, in the order in which they are written, and how it is made of
 * them. Fields without an accessor are read, but not written.
 *
 * <pre>{@code
 * var bank = new Fields<Bank>();
 * var name = bank.needed("name", newName(banks), Bank::name).means("name of the bank");
 * var supply = bank.needed("millivolts", whole(0, MOST), Bank::millivolts).means("its supply");
 * return bank.makes(() -> new Bank(name.get(), supply.get()));
 * }</pre>
 *
 * @param <R> the records
 */
public final class Fields<R> {
    private final List<Slot> slots = new ArrayList<>();
    private final List<Slot.Writing<R>> writings = new ArrayList<>();
    private Schema more = Schema.any();

    private <S extends Slot> S add(S slot) {
        slots.add(slot);
        return slot;
    }

    /** A field of every record. */
    public <V> Field<V> needed(String name, Kind<V> kind, Function<? super R, ? extends V> get) {
        Field<V> field = needed(name, kind);
        writings.add((to, record) -> to.put(field, get.apply(record)));
        return field;
    }

    /** A field of every record. */
    public <V> Field<V> needed(String name, Kind<V> kind) {
        return add(new Field<>(name, true, kind, null));
    }

    /** A field of every record. */
    public IntField needed(String name, IntKind kind, ToIntFunction<? super R> get) {
        IntField field = needed(name, kind);
        writings.add((to, record) -> to.put(field, get.applyAsInt(record)));
        return field;
    }

    /** A field of every record. */
    public IntField needed(String name, IntKind kind) {
        return add(new IntField(name, true, kind, 0));
    }

    /** A field that need not be stated, and is always written. */
    public <V> Field<V> stated(
            String name, Kind<V> kind, V usual, Function<? super R, ? extends V> get) {
        Field<V> field = optional(name, kind, usual);
        writings.add((to, record) -> to.put(field, get.apply(record)));
        return field;
    }

    /** A field that need not be stated, and is always written. */
    public IntField stated(String name, IntKind kind, int usual, ToIntFunction<? super R> get) {
        IntField field = optional(name, kind, usual);
        writings.add((to, record) -> to.put(field, get.applyAsInt(record)));
        return field;
    }

    /** A field that is written only where it has another value than the usual one. */
    public <V> Field<V> optional(
            String name, Kind<V> kind, V usual, Function<? super R, ? extends V> get) {
        Field<V> field = optional(name, kind, usual);
        writings.add(
                (to, record) -> {
                    V value = get.apply(record);
                    if (field.isUsual(value)) {
                        to.leaveOut(field);
                    } else {
                        to.put(field, value);
                    }
                });
        return field;
    }

    /** A field that need not be stated. */
    public <V> Field<V> optional(String name, Kind<V> kind, V usual) {
        return add(new Field<>(name, false, kind, usual));
    }

    /** A field that is written only where it has another value than the usual one. */
    public IntField optional(String name, IntKind kind, int usual, ToIntFunction<? super R> get) {
        IntField field = optional(name, kind, usual);
        writings.add(
                (to, record) -> {
                    int value = get.applyAsInt(record);
                    if (field.isUsual(value)) {
                        to.leaveOut(field);
                    } else {
                        to.put(field, value);
                    }
                });
        return field;
    }

    /** A field that need not be stated. */
    public IntField optional(String name, IntKind kind, int usual) {
        return add(new IntField(name, false, kind, usual));
    }

    /** A field that some records have. */
    public <V> Field<Optional<V>> maybe(
            String name, Kind<V> kind, Function<? super R, Optional<V>> get) {
        return optional(name, Kinds.present(kind), Optional.empty(), get);
    }

    /** A number that some records have. */
    public Field<OptionalInt> maybe(
            String name, IntKind kind, Function<? super R, OptionalInt> get) {
        return optional(name, Kinds.present(kind), OptionalInt.empty(), get);
    }

    /** A member with always the same text: the format of a file, which is checked beforehand. */
    public void constant(String name, String text) {
        needed(name, Kinds.constant(text), record -> text);
    }

    /**
     * Says in the schema, too, what goes together in a record; the check of what is read is that of
     * whoever makes the record.
     */
    public void require(Schema rule) {
        more = more.and(rule);
    }

    /** The form of records that are made of the values that were read, in files and tables. */
    public Form<R> makes(Supplier<? extends R> maker) {
        return new Form<>(slots, writings, in -> maker.get(), maker, more);
    }

    /** The form of records that are made of what was read in JSON, unless it clashes. */
    public Form<R> makes(Form.Maker<? extends R> maker) {
        return new Form<>(slots, writings, maker, Fields::never, more);
    }

    /** The form of records that are only written. */
    public Form<R> written() {
        return makes(Fields::never);
    }

    private static <R> R never() {
        throw new UnsupportedOperationException("these are not read in that manner");
    }

    /** An array of such records, each of which is used when it was read, and not collected. */
    public Kind<Iterable<R>> rows(Use use) {
        Form<R> form = written();
        return Kind.of(
                in -> {
                    in.beginArray();
                    while (in.more()) {
                        form.readFields(in);
                        use.run(in);
                    }
                    in.endArray();
                    return List.of();
                },
                (out, records) -> {
                    out.beginArray();
                    for (R record : records) {
                        form.write(out, record);
                    }
                    out.endArray();
                },
                () -> Schema.arrayOf(form.schema()));
    }

    /** What is done with a record whose fields were read. */
    public interface Use {
        /**
         * Uses them.
         *
         * @throws BadInput when they do not go together
         */
        void run(JsonIn in) throws BadInput;
    }

    /** The form of a whole file. */
    public FileForm<R> makesFile(Supplier<? extends R> maker) {
        return new FileForm<>(makes(maker), slots);
    }

    /** Requires fields of the record that was just read. */
    public static void need(JsonIn in, Slot... some) throws BadInput {
        for (Slot one : some) {
            if (!one.isGiven()) {
                throw in.fault("member " + Text.quote(one.name()), "none");
            }
        }
    }
}
