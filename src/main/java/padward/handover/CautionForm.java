package padward.handover;

import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;

import java.util.List;
import java.util.function.Function;
import padward.breakout.ask.Caution;
import padward.breakout.ask.Cautions;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kinds;

/** The forms of cautions, the same in answers and change lists. */
public final class CautionForm {
    private CautionForm() {}

    /** A caution about one pad. */
    public static Form<Caution> ofOnePad() {
        var one = new Fields<Caution>();
        addCaution(one, c -> c);
        return one.written();
    }

    /** A caution about several pads. */
    public static Form<Cautions.Shared> ofPads() {
        var one = new Fields<Cautions.Shared>();
        addCaution(one, Cautions.Shared::caution);
        one.needed("pads", texts(), s -> List.copyOf(s.pads())).means("the pads that it is about");
        return one.written();
    }

    private static <R> void addCaution(Fields<R> to, Function<R, Caution> caution) {
        to.needed(
                        "kind",
                        Kinds.choice(Caution.Kind.values(), Caution.Kind::label),
                        r -> caution.apply(r).kind())
                .means("what it is about");
        to.needed("serious", Kinds.flag(), r -> caution.apply(r).kind().isSerious())
                .means("whether it can do harm");
        to.needed("text", text(), r -> caution.apply(r).text()).means("in words");
    }
}
