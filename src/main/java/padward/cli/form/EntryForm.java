package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.whole;
import static padward.format.form.WrittenKinds.word;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import padward.breakout.verify.CarryOver;
import padward.change.Edit;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.format.form.Fields;
import padward.format.form.Form;

/** The forms of entries of ledgers. */
public final class EntryForm {
    private EntryForm() {}

    /**
     * An entry with its number.
     *
     * @param number from 1
     */
    public record Numbered(int number, LedgerEntry entry) {
        /** All entries of a ledger. */
        public static List<Numbered> all(Ledger ledger) {
            List<Numbered> result = new ArrayList<>();
            ledger.entries().forEach(e -> result.add(new Numbered(result.size() + 1, e)));
            return result;
        }

        /** The last entry of a ledger. */
        public static Numbered last(Ledger ledger) {
            int count = ledger.entries().size();
            return new Numbered(count, ledger.entries().get(count - 1));
        }
    }

    /** An entry, its edits in words. */
    public static Form<Numbered> entry() {
        var entry = new Fields<Numbered>();
        addEntry(entry, e -> e);
        return entry.written();
    }

    private static <R> void addEntry(Fields<R> to, Function<R, Numbered> entry) {
        to.needed("number", whole(), r -> entry.apply(r).number()).means("its number, from 1");
        to.needed("when", text(), r -> of(entry, r).when()).means("date and time");
        to.needed("who", text(), r -> of(entry, r).who()).means("who kept it");
        to.needed("note", text(), r -> of(entry, r).note()).means("for people");
        to.needed("net", text(), r -> of(entry, r).net()).means("the net that it is for");
        to.needed("pad", text(), r -> of(entry, r).pad()).means("the pad that it is for");
        to.needed("edits", texts(), r -> words(of(entry, r).edits())).means("in words");
        to.needed("accepted", list(acceptance()), r -> of(entry, r).accepted())
                .means("the cautions that were accepted");
    }

    private static <R> LedgerEntry of(Function<R, Numbered> entry, R record) {
        return entry.apply(record).entry();
    }

    static List<String> words(List<Edit> edits) {
        return edits.stream().map(Edit::toText).toList();
    }

    private static Form<LedgerEntry.Acceptance> acceptance() {
        var accepted = new Fields<LedgerEntry.Acceptance>();
        accepted.needed("what", text(), LedgerEntry.Acceptance::what).means("the caution");
        accepted.needed("who", text(), LedgerEntry.Acceptance::who).means("who accepted it");
        accepted.needed("when", text(), LedgerEntry.Acceptance::when).means("when");
        return accepted.written();
    }

    /** Whether an entry fits another run. */
    static Form<CarryOver.Outcome> outcome() {
        var outcome = new Fields<CarryOver.Outcome>();
        addEntry(outcome, o -> new Numbered(o.index() + 1, o.entry()));
        outcome.needed(
                        "outcome",
                        word(List.of("fits", "rerouted", "left-out")),
                        o -> o.fits() ? "fits" : o.edits().isEmpty() ? "left-out" : "rerouted")
                .means("whether it fits");
        outcome.needed("reasons", texts(), CarryOver.Outcome::reasons).means("why it does not");
        outcome.optional("lines", list(line()), List.of(), CarryOver.Outcome::lines)
                .means("its lines, where they were searched again");
        outcome.needed("applied", texts(), o -> words(o.edits())).means("the edits applied");
        outcome.needed("price", PriceForm.price(), CarryOver.Outcome::price).means("what it costs");
        PriceForm.addShared(outcome, o -> Optional.of(o.cautions()));
        return outcome.written();
    }

    private static Form<CarryOver.Line> line() {
        var line = new Fields<CarryOver.Line>();
        line.needed("net", text(), CarryOver.Line::net).means("its net");
        line.needed("pad", text(), CarryOver.Line::pad).means("its pad");
        line.needed("route", word(List.of("same", "new", "none")), EntryForm::routeWord)
                .means("what became of its route");
        RouteForm.addRoute(
                line,
                l ->
                        l instanceof CarryOver.Line.Found found
                                ? Optional.of(found.route())
                                : Optional.empty());
        line.maybe(
                        "reason",
                        text(),
                        l ->
                                l instanceof CarryOver.Line.Left left
                                        ? Optional.of(left.reason())
                                        : Optional.empty())
                .means("why there is none");
        return line.written();
    }

    private static String routeWord(CarryOver.Line line) {
        if (line instanceof CarryOver.Line.Found) {
            return "new";
        }
        return line instanceof CarryOver.Line.Left ? "none" : "same";
    }
}
