package padward.cli.form;

import padward.fabric.Delay;
import padward.format.form.Kind;
import padward.format.form.Schema;

/** Delays as the commands print them: {@code [fast, slow]} in picoseconds. */
public final class Delays {
    private Delays() {}

    /** Sums along routes, which can be longer than the delays that files may state. */
    public static Kind<Delay> delay() {
        return Kind.of(
                in -> {
                    throw new UnsupportedOperationException("answers are not read");
                },
                (out, delay) -> {
                    out.beginArray();
                    out.value(delay.fastPs());
                    out.value(delay.slowPs());
                    out.endArray();
                },
                () ->
                        Schema.tuple(
                                Schema.whole(0, Integer.MAX_VALUE),
                                Schema.whole(0, Integer.MAX_VALUE)));
    }
}
