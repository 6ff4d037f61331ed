package padward.format.form;

import java.util.List;
import java.util.function.Function;
import padward.fabric.delay.Delay;
import padward.format.json.JsonIn;

/** Kinds of value in answers and lists. They are written and described, and never read. */
public final class WrittenKinds {
    private WrittenKinds() {}

    private static <V> Kind<V> written(Kind.Writing<V> writing, Schema schema) {
        JsonIn.Element<V> never =
                in -> {
                    throw new UnsupportedOperationException("answers are not read");
                };
        return Kind.of(never, writing, () -> schema);
    }

    /** A text of any length. */
    public static Kind<String> text() {
        return written((out, text) -> out.value(text), Schema.type("string"));
    }

    /** Texts of any length. */
    public static Kind<List<String>> texts() {
        return Kinds.list(text());
    }

    /** One of a few words. */
    public static Kind<String> word(List<String> words) {
        return written((out, text) -> out.value(text), Schema.oneWordOf(words));
    }

    /** A whole number. */
    public static IntKind whole() {
        return Kinds.whole(Integer.MIN_VALUE, Integer.MAX_VALUE);
    }

    /** How many there are of something. */
    public static IntKind number() {
        return Kinds.whole(0, Integer.MAX_VALUE);
    }

    /** A whole number that can be a sum of many. */
    public static Kind<Long> count() {
        return written(
                (out, number) -> out.value(number), Schema.type("integer").with("minimum", 0));
    }

    /**
     * A delay: {@code [fast, slow]} in picoseconds. Sums along routes can be longer than the delays
     * that files may state.
     */
    public static Kind<Delay> delay() {
        Schema corner = Schema.whole(0, Integer.MAX_VALUE);
        return written(
                (out, delay) -> {
                    out.beginArray();
                    out.value(delay.fastPs());
                    out.value(delay.slowPs());
                    out.endArray();
                },
                Schema.tuple(corner, corner));
    }

    /**
     * Records of several forms in one place.
     *
     * @param form the form of a record
     * @param all every form
     */
    public static <V> Kind<V> oneOf(Function<V, Form<V>> form, List<Form<V>> all) {
        return written(
                (out, value) -> form.apply(value).write(out, value),
                Schema.oneOf(all.stream().map(Form::schema).toList()));
    }
}
