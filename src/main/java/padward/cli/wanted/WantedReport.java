package padward.cli.wanted;

import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.text;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerKind;
import padward.breakout.wanted.NearRegister;
import padward.breakout.wanted.WantedChange;
import padward.breakout.wanted.WantedResult;
import padward.design.Net;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Kinds;
import padward.format.form.WrittenKinds;
import padward.format.source.FileLimits;

/**
 * All wanted nets, as the command prints them in JSON.
 *
 * @param design name of the design's file
 * @param was name of the earlier design's file, if there is one
 */
public record WantedReport(String design, Optional<String> was, List<WantedResult> nets) {
    /** What its format is called. */
    public static final String FORMAT = "padward-wanted/1";

    /** Copies the results. */
    public WantedReport {
        nets = List.copyOf(nets);
    }

    /** How many somebody has to look at. */
    long needAttention() {
        return nets.stream().filter(WantedResult::needsAttention).count();
    }

    /** Whether something changed for a net, whether it must be seen or may. */
    boolean changed() {
        return nets.stream().anyMatch(r -> !r.changes().isEmpty());
    }

    /** Its form in JSON. */
    public static Form<WantedReport> form() {
        var report = new Fields<WantedReport>();
        report.constant("format", FORMAT);
        report.needed("design", line(), WantedReport::design).means("the design's file");
        report.maybe("was", line(), WantedReport::was).means("the earlier design's file");
        report.needed("nets", list(result()), WantedReport::nets).means("as in the table");
        return report.written();
    }

    private static Kind<String> line() {
        return text(FileLimits.NOTE);
    }

    private static Form<WantedResult> result() {
        var result = new Fields<WantedResult>();
        result.needed("wanted", line(), r -> r.wanted().net()).means("the net as it is wanted");
        result.needed("must", Kinds.flag(), r -> r.wanted().must())
                .means("whether it must be seen");
        result.maybe("net", line(), r -> r.net().map(Net::name))
                .means("its name in the design; missing where it is gone");
        result.maybe("pad", line(), r -> r.answer().map(a -> a.question().padValue().name()))
                .means("the best of its pads");
        result.maybe(
                        "answer",
                        Kinds.choice(AnswerKind.values(), AnswerKind::label),
                        r -> r.answer().map(AnswerKind::of))
                .means("whether there is a route to it");
        result.maybe(
                        "delay_ps",
                        WrittenKinds.delay(),
                        r -> r.answer().flatMap(Answer::findRoute).map(p -> p.total()))
                .means("from the net's driver to the pin");
        result.maybe(
                        "delayBefore_ps",
                        WrittenKinds.delay(),
                        r -> r.before().flatMap(Answer::findRoute).map(p -> p.total()))
                .means("the same in the earlier design, for the best pad there");
        result.needed("changes", list(change()), WantedResult::changes)
                .means("against the earlier design");
        result.needed("near", list(near()), WantedResult::near)
                .means("where the net is gone: registers around it that are still there");
        result.needed("attention", Kinds.flag(), WantedResult::needsAttention)
                .means("whether somebody has to look at it");
        return result.written();
    }

    private static Form<WantedChange> change() {
        var change = new Fields<WantedChange>();
        change.needed(
                        "kind",
                        Kinds.choice(WantedChange.Kind.values(), WantedChange.Kind::label),
                        WantedChange::kind)
                .means("what sort of change");
        change.needed("text", line(), WantedChange::text).means("in words");
        return change.written();
    }

    private static Form<NearRegister> near() {
        var near = new Fields<NearRegister>();
        near.needed("net", line(), NearRegister::net).means("the register's net");
        near.needed("relation", line(), NearRegister::relation)
                .means("where it stood, seen from the net");
        near.maybe(
                        "answer",
                        Kinds.choice(AnswerKind.values(), AnswerKind::label),
                        NearRegister::answer)
                .means("whether it has a route to the first of the pads");
        return near.written();
    }

    /** A register near a net that is gone, in words. */
    public static String words(NearRegister near) {
        return near.net()
                + ", "
                + near.relation()
                + near.answer().map(a -> ": " + a.toText()).orElse("");
    }

    /** The words of a result's changes. */
    static Stream<String> words(WantedResult result) {
        return result.changes().stream().map(c -> c.kind().label() + ": " + c.text());
    }
}
