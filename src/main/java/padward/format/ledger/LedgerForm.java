package padward.format.ledger;

import static padward.format.form.Kinds.digest;
import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.name;
import static padward.format.form.Kinds.real;
import static padward.format.form.Kinds.text;
import static padward.format.form.Kinds.whole;
import static padward.format.form.Kinds.word;

import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.format.form.Fields;
import padward.format.form.FileForm;
import padward.format.form.Form;
import padward.format.json.FileHeader;
import padward.format.source.FileLimits;

/** The form of ledgers. */
final class LedgerForm {
    private LedgerForm() {}

    /** A ledger's file. */
    static FileForm<Ledger> of(EditForms edits) {
        var ledger = new Fields<Ledger>();
        ledger.constant("format", FileHeader.LEDGER);
        var design = ledger.needed("design", name(), Ledger::design).means("the design's file");
        var digest =
                ledger.needed("sha256", digest(), Ledger::digest)
                        .means("digest of that file's bytes");
        var entries =
                ledger.needed("entries", list(entry(edits, true)), Ledger::entries)
                        .means("what was kept");
        return ledger.makesFile(() -> new Ledger(design.get(), digest.get(), entries.get()));
    }

    /**
     * An entry of a ledger.
     *
     * @param signed whether it states its digests
     */
    static Form<LedgerEntry> entry(EditForms edits, boolean signed) {
        var entry = new Fields<LedgerEntry>();
        var when = entry.needed("when", name(), LedgerEntry::when).means("date and time");
        var who = entry.needed("who", name(), LedgerEntry::who).means("who kept it");
        var note =
                entry.optional("note", text(FileLimits.NOTE), "", LedgerEntry::note)
                        .means("for people");
        var net = entry.needed("net", name(), LedgerEntry::net).means("the net that it is for");
        var pad = entry.needed("pad", name(), LedgerEntry::pad).means("the pad that it is for");
        var all =
                entry.needed("edits", list(edits.edit()), LedgerEntry::edits).means("what is done");
        var accepted =
                entry.optional("accepted", list(acceptance()), List.of(), LedgerEntry::accepted)
                        .means("the cautions that were accepted");
        var leads =
                entry.optional("leads", list(lead()), List.of(), LedgerEntry::leads)
                        .means("which lead of the instrument is on which line");
        if (!signed) {
            return entry.makes(
                    () ->
                            new LedgerEntry(
                                            when.get(),
                                            who.get(),
                                            note.get(),
                                            net.get(),
                                            pad.get(),
                                            all.get())
                                    .withAccepted(accepted.get())
                                    .withLeads(leads.get()));
        }
        var before =
                entry.needed("before", digest(), e -> digestsOf(e).before())
                        .means("digest of the design before it");
        var after =
                entry.needed("after", digest(), e -> digestsOf(e).after())
                        .means("digest of the design after it");
        return entry.makes(
                () ->
                        new LedgerEntry(
                                        when.get(),
                                        who.get(),
                                        note.get(),
                                        net.get(),
                                        pad.get(),
                                        all.get())
                                .withAccepted(accepted.get())
                                .withLeads(leads.get())
                                .signed(before.get(), after.get()));
    }

    private static LedgerEntry.Digests digestsOf(LedgerEntry entry) {
        return entry.digests().orElseThrow(() -> new IllegalArgumentException("no digests"));
    }

    private static Form<LedgerLead> lead() {
        var lead = new Fields<LedgerLead>();
        var port = lead.needed("port", name(), LedgerLead::port).means("name of the port");
        var channel =
                lead.needed("channel", whole(1, FileLimits.CHANNELS), LedgerLead::channel)
                        .means("channel of the instrument");
        var name = lead.optional("name", word(), "", LedgerLead::name).means("the lead's own name");
        var pod = lead.optional("pod", word(), "", LedgerLead::pod).means("its pod");
        var colour = lead.optional("colour", word(), "", LedgerLead::colour).means("its colour");
        var metres =
                lead.maybe("length_m", real(0, FileLimits.LEAD_METRES), LedgerLead::metres)
                        .means("its length, metres; otherwise that of the sheet's other leads");
        var measured =
                lead.maybe(
                                "measured_ps",
                                whole(-FileLimits.MEASURED_PS, FileLimits.MEASURED_PS),
                                l ->
                                        l.measured()
                                                .map(m -> OptionalInt.of(m.ps()))
                                                .orElse(OptionalInt.empty()))
                        .means("measured delay of its line, from any common point; otherwise none");
        var tolerance =
                lead.optional(
                                "measuredTolerance_ps",
                                whole(0, FileLimits.MEASURED_PS),
                                0,
                                l -> l.measured().map(LedgerLead.Measured::tolerancePs).orElse(0))
                        .means("how far the measured delay can be off, either way");
        return lead.makes(
                () ->
                        new LedgerLead(
                                port.get(),
                                channel.get(),
                                name.get(),
                                pod.get(),
                                colour.get(),
                                metres.get(),
                                measured.get().isPresent()
                                        ? Optional.of(
                                                new LedgerLead.Measured(
                                                        measured.get().getAsInt(), tolerance.get()))
                                        : Optional.empty()));
    }

    private static Form<LedgerEntry.Acceptance> acceptance() {
        var accepted = new Fields<LedgerEntry.Acceptance>();
        var what =
                accepted.needed("what", word(), LedgerEntry.Acceptance::what).means("the caution");
        var who =
                accepted.needed("who", name(), LedgerEntry.Acceptance::who)
                        .means("who accepted it");
        var when =
                accepted.needed("when", name(), LedgerEntry.Acceptance::when)
                        .means("date and time");
        return accepted.makes(() -> new LedgerEntry.Acceptance(what.get(), who.get(), when.get()));
    }
}
