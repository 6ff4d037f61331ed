package padward.cli.form;

import static padward.format.form.Kinds.list;
import static padward.format.form.Kinds.real;
import static padward.format.form.WrittenKinds.text;
import static padward.format.form.WrittenKinds.texts;
import static padward.format.form.WrittenKinds.whole;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.base.BadInput;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.survey.WhatIfReport;
import padward.breakout.verify.CarryOver;
import padward.breakout.verify.ChangeAudit;
import padward.breakout.verify.DesignDiff;
import padward.change.LedgerLead;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.format.form.Fields;
import padward.format.form.Form;
import padward.format.form.Kind;
import padward.format.form.Kinds;
import padward.format.form.Schema;
import padward.format.form.WrittenKinds;
import padward.format.source.FileLimits;

/** What the commands print as JSON, each with its form. */
public final class Reports {
    private Reports() {}

    /** {@code ask-all}: answers in the order of the questions. */
    public record Answers(List<AnswerForm.Given> answers) {
        /** Copies the answers. */
        public Answers {
            answers = List.copyOf(answers);
        }

        /** Its form. */
        public static Form<Answers> form() {
            var report = new Fields<Answers>();
            report.constant("format", "padward-answers/1");
            report.needed("answers", list(AnswerForm.answer()), Answers::answers)
                    .means("in the order of the questions");
            return report.written();
        }
    }

    /**
     * {@code survey}: answers, best first.
     *
     * @param leftOut how many more there are
     */
    public record Ranked(String net, Corner corner, List<AnswerForm.Given> answers, int leftOut) {
        /** Copies the answers. */
        public Ranked {
            answers = List.copyOf(answers);
        }

        /** Its form. */
        public static Form<Ranked> form() {
            var report = new Fields<Ranked>();
            report.constant("format", "padward-survey/1");
            report.needed("net", text(), Ranked::net).means("the net");
            report.needed("corner", Kinds.choice(Corner.values(), Corner::label), Ranked::corner)
                    .means("at which delays are compared");
            report.needed("answers", list(AnswerForm.answer()), Ranked::answers)
                    .means("best first");
            report.needed("leftOut", whole(), Ranked::leftOut).means("how many more there are");
            return report.written();
        }
    }

    /** {@code ask --what-if}. */
    public static Form<WhatIfReport> whatIf() {
        var report = new Fields<WhatIfReport>();
        report.constant("format", "padward-what-if/1");
        report.needed("whatIf", texts(), r -> EntryForm.words(r.edits())).means("the edits");
        report.needed("price", PriceForm.price(), WhatIfReport::price)
                .means("what they and the answer with them cost");
        report.needed("newlyOpen", texts(), r -> names(r.newlyOpen())).means("pads newly open");
        report.needed("noLongerOpen", texts(), r -> names(r.noLongerOpen()))
                .means("pads no longer open");
        report.needed("before", AnswerForm.answer(), r -> AnswerForm.Given.of(r.before()))
                .means("the answer without them");
        report.needed("after", AnswerForm.answer(), r -> AnswerForm.Given.of(r.after()))
                .means("the answer with them");
        return report.written();
    }

    private static List<String> names(List<Pad> pads) {
        return pads.stream().map(Pad::name).toList();
    }

    /**
     * {@code keep}: what was kept.
     *
     * @param kept whether it was
     * @param entry what was, or would be
     */
    public record Kept(
            boolean kept,
            String ledger,
            Optional<EntryForm.Numbered> entry,
            AnswerForm.Given answer,
            Optional<Price> price) {
        /** Its form. */
        public static Form<Kept> form() {
            var report = new Fields<Kept>();
            report.constant("format", "padward-kept/1");
            report.needed("kept", Kinds.flag(), Kept::kept).means("whether it was kept");
            report.needed("ledger", text(), Kept::ledger).means("the ledger's file");
            report.maybe("entry", EntryForm.entry(), Kept::entry)
                    .means("what was kept, or would be");
            report.needed("answer", AnswerForm.answer(), Kept::answer).means("the answer");
            report.maybe("price", PriceForm.price(), Kept::price).means("what it costs");
            return report.written();
        }
    }

    /**
     * {@code undo}: what was undone.
     *
     * @param undone the entry, then what depended on it
     * @param remaining how many entries remain
     */
    public record Undone(
            String ledger, boolean dryRun, List<EntryForm.Numbered> undone, int remaining) {
        /** Copies the entries. */
        public Undone {
            undone = List.copyOf(undone);
        }

        /** Its form. */
        public static Form<Undone> form() {
            var report = new Fields<Undone>();
            report.constant("format", "padward-undone/1");
            report.needed("ledger", text(), Undone::ledger).means("the ledger's file");
            report.optional("dryRun", Kinds.flag(), false, Undone::dryRun)
                    .means("whether nothing was written");
            report.needed("undone", list(EntryForm.entry()), Undone::undone)
                    .means("the entry, then what depended on it");
            report.needed("remaining", whole(), Undone::remaining).means("entries that remain");
            return report.written();
        }
    }

    /**
     * {@code ledger}: entries.
     *
     * @param count how many the ledger has
     */
    public record Entries(
            String ledger, String design, List<EntryForm.Numbered> entries, int count) {
        /** Copies the entries. */
        public Entries {
            entries = List.copyOf(entries);
        }

        /** Its form. */
        public static Form<Entries> form() {
            var report = new Fields<Entries>();
            report.constant("format", "padward-entries/1");
            report.needed("ledger", text(), Entries::ledger).means("the ledger's file");
            report.needed("design", text(), Entries::design).means("what it was made on");
            report.needed("entries", list(EntryForm.entry()), Entries::entries)
                    .means("the entries asked for");
            report.needed("count", whole(), Entries::count).means("how many the ledger has");
            return report.written();
        }
    }

    /**
     * {@code apply}: a changed copy of a design.
     *
     * @param written the copy; empty when something does not fit and nothing was written
     */
    public record Applied(
            String ledger,
            String madeOn,
            boolean sameRun,
            CarryOver carried,
            Optional<String> written,
            Optional<String> newLedger,
            Optional<ChangeAudit> audit,
            Fabric fabric) {
        /** Its form. */
        public static Form<Applied> form() {
            var report = new Fields<Applied>();
            report.constant("format", "padward-applied/1");
            report.needed("ledger", text(), Applied::ledger).means("the ledger's file");
            report.needed("madeOn", text(), Applied::madeOn).means("what it was made on");
            report.needed("sameRun", Kinds.flag(), Applied::sameRun)
                    .means("whether the design is that very file");
            report.needed("complete", Kinds.flag(), a -> a.carried().isWhole())
                    .means("whether all was applied");
            report.needed("entries", list(EntryForm.outcome()), a -> a.carried().outcomes())
                    .means("what became of each entry");
            report.maybe("written", text(), Applied::written).means("the copy");
            report.maybe("newLedger", text(), Applied::newLedger).means("the ledger for it");
            report.maybe(
                            "audit",
                            DiffForm.audit(),
                            a -> a.audit().map(r -> new DiffForm.Audited(r, a.fabric())))
                    .means("the check that nothing else changed");
            return report.written();
        }
    }

    /** {@code diff}: the differences between two designs or ledgers. */
    public record Compared(
            String one,
            String other,
            DesignDiff diff,
            Fabric fabric,
            Price price,
            Collection<Cautions.Shared> cautions) {
        /** Copies the cautions. */
        public Compared {
            cautions = List.copyOf(cautions);
        }

        /** Its form. */
        public static Form<Compared> form() {
            var report = new Fields<Compared>();
            report.constant("format", "padward-diff/1");
            report.needed("a", text(), Compared::one).means("the one");
            report.needed("b", text(), Compared::other).means("the other");
            DiffForm.addDifferences(report, c -> new DiffForm.Of(c.diff(), c.fabric()));
            report.needed("price", PriceForm.price(), Compared::price)
                    .means("what b costs that a does not");
            PriceForm.addShared(report, c -> Optional.of(c.cautions()));
            return report.written();
        }
    }

    /**
     * A line of {@code ask --batch}.
     *
     * @param line where the question stands
     * @param id what the question is called; may be empty
     * @param brief whether the answer is printed in brief
     */
    public record Line(
            long line,
            String id,
            Optional<AnswerForm.Given> answer,
            boolean brief,
            Optional<BadInput> error) {
        /** Its form. */
        public static Form<Line> form() {
            var report = new Fields<Line>();
            report.needed("line", WrittenKinds.count(), Line::line)
                    .means("where the question stands");
            report.optional("id", text(), "", Line::id).means("what it is called");
            report.maybe("answer", shown(), l -> l.answer().map(a -> new Shown(a, l.brief())))
                    .means("the answer, as ask prints it or in brief");
            report.maybe("error", badInput(), Line::error).means("why there is none");
            return report.written();
        }

        /** An answer, and whether in brief. */
        private record Shown(AnswerForm.Given answer, boolean brief) {}

        private static Kind<Shown> shown() {
            Form<AnswerForm.Given> whole = AnswerForm.answer();
            Form<AnswerForm.Given> brief = AnswerForm.brief();
            return Kind.of(
                    in -> {
                        throw new UnsupportedOperationException("answers are not read");
                    },
                    (out, shown) -> (shown.brief() ? brief : whole).write(out, shown.answer()),
                    () -> Schema.oneOf(List.of(whole.schema(), brief.schema())));
        }
    }

    /** The lines that a command without a form of its own prints. */
    public record Lines(String command, int exitStatus, List<String> lines) {
        /** Copies the lines. */
        public Lines {
            lines = List.copyOf(lines);
        }

        /** Its form. */
        public static Form<Lines> form() {
            var report = new Fields<Lines>();
            report.constant("format", "padward-report/1");
            report.needed("command", text(), Lines::command).means("the command");
            report.needed("exitStatus", Kinds.whole(0, 3), Lines::exitStatus)
                    .means("its exit status");
            report.needed("lines", texts(), Lines::lines).means("what it prints");
            return report.written();
        }
    }

    /**
     * {@code check}: what is in files.
     *
     * @param file the file
     * @param lines what is in it, in words
     * @param suspicious what is valid but seldom intended
     * @param all all suspicious things of the kind that was asked for
     * @param fault what is wrong with it; empty when it is sound
     */
    public record Checked(
            String file,
            List<String> lines,
            List<String> suspicious,
            List<String> all,
            Optional<BadInput> fault) {
        /** Copies the lists. */
        public Checked {
            all = List.copyOf(all);
            lines = List.copyOf(lines);
            suspicious = List.copyOf(suspicious);
        }

        /** The form of the checks of several files. */
        public static Form<List<Checked>> form() {
            var one = new Fields<Checked>();
            one.needed("file", text(), Checked::file).means("the file");
            one.needed("sound", Kinds.flag(), c -> c.fault().isEmpty())
                    .means("whether it can be read");
            one.needed("lines", texts(), Checked::lines).means("what is in it");
            one.needed("suspicious", texts(), Checked::suspicious)
                    .means("what is valid but seldom intended");
            one.optional("all", texts(), List.of(), Checked::all)
                    .means("all suspicious things of the kind that --all states");
            one.maybe("fault", badInput(), Checked::fault).means("what is wrong");
            var report = new Fields<List<Checked>>();
            report.constant("format", "padward-checked/1");
            report.needed("files", list(one.written()), c -> c).means("each file");
            return report.written();
        }
    }

    /**
     * {@code pins}: a package's pins, or how a fabric's pads differ from them.
     *
     * @param differences in words; empty without a fabric or a board to compare with
     * @param withoutPad signal pins that no pad is on; empty without a fabric
     */
    public record Pins(
            String entity,
            String pinMap,
            List<One> pins,
            List<String> differences,
            List<String> withoutPad) {
        /** Copies the lists. */
        public Pins {
            withoutPad = List.copyOf(withoutPad);
            pins = List.copyOf(pins);
            differences = List.copyOf(differences);
        }

        /** A pin. */
        public record One(String pin, String port, String mode, String boardNet) {}

        /** Its form. */
        public static Form<Pins> form() {
            var pin = new Fields<One>();
            pin.needed("pin", text(), One::pin).means("the pin");
            pin.needed("port", text(), One::port).means("the port on it");
            pin.needed("mode", text(), One::mode).means("in which direction it goes");
            pin.optional("boardNet", text(), "", One::boardNet).means("the board's net on it");
            var report = new Fields<Pins>();
            report.constant("format", "padward-pins/1");
            report.needed("entity", text(), Pins::entity).means("the device");
            report.needed("pinMap", text(), Pins::pinMap).means("the package");
            report.needed("pins", list(pin.written()), Pins::pins).means("all pins");
            report.needed("differences", texts(), Pins::differences)
                    .means("how the fabric's pads or the board differ from them");
            report.needed("withoutPad", texts(), Pins::withoutPad)
                    .means("the signal pins that no pad of the fabric is on");
            return report.written();
        }
    }

    /**
     * {@code lead}: the leads of a ledger's lines.
     *
     * @param leads those of each entry
     */
    public record Leads(String ledger, List<List<LedgerLead>> leads) {
        /** Copies the leads. */
        public Leads {
            leads = leads.stream().map(List::copyOf).toList();
        }

        /** A lead with the number of its entry. */
        private record One(int entry, LedgerLead lead) {}

        private List<One> all() {
            List<One> all = new ArrayList<>();
            for (int i = 0; i < leads.size(); i++) {
                for (LedgerLead lead : leads.get(i)) {
                    all.add(new One(i + 1, lead));
                }
            }
            return all;
        }

        /** Its form. */
        public static Form<Leads> form() {
            var one = new Fields<One>();
            one.needed("entry", whole(), One::entry).means("number of the entry, from 1");
            one.needed("port", text(), o -> o.lead().port()).means("the port");
            one.needed("channel", whole(), o -> o.lead().channel()).means("the channel");
            one.needed("name", text(), o -> o.lead().name()).means("the lead's own name");
            one.needed("pod", text(), o -> o.lead().pod()).means("its pod");
            one.needed("colour", text(), o -> o.lead().colour()).means("its colour");
            one.maybe("length_m", real(0, FileLimits.LEAD_METRES), o -> o.lead().metres())
                    .means("its length, metres");
            one.maybe(
                            "measured_ps",
                            whole(),
                            o -> number(o.lead().measured().map(LedgerLead.Measured::ps)))
                    .means("measured delay of its line");
            one.maybe(
                            "measuredTolerance_ps",
                            whole(),
                            o -> number(o.lead().measured().map(LedgerLead.Measured::tolerancePs)))
                    .means("how far that can be off, either way");
            var report = new Fields<Leads>();
            report.constant("format", "padward-leads/1");
            report.needed("ledger", text(), Leads::ledger).means("the ledger's file");
            report.needed("leads", list(one.written()), Leads::all).means("each lead");
            return report.written();
        }

        private static OptionalInt number(Optional<Integer> value) {
            return value.isPresent() ? OptionalInt.of(value.get()) : OptionalInt.empty();
        }
    }

    private static Form<BadInput> badInput() {
        var fault = new Fields<BadInput>();
        fault.needed("source", text(), BadInput::source).means("the file or field at fault");
        fault.optional("place", text(), "", BadInput::place).means("the place in it");
        fault.needed("expected", text(), BadInput::expected).means("what was expected");
        fault.needed("found", text(), BadInput::found).means("what was found");
        return fault.written();
    }

    /**
     * {@code nets}: nets of a design.
     *
     * @param leftOut how many more there are
     */
    public record Nets(List<One> nets, int leftOut) {
        /** Copies the nets. */
        public Nets {
            nets = List.copyOf(nets);
        }

        /** A net. */
        public record One(String name, String driver, int fanOut, int vertices, boolean clock) {}

        /** Its form. */
        public static Form<Nets> form() {
            var net = new Fields<One>();
            net.needed("name", text(), One::name).means("its name");
            net.needed("driver", text(), One::driver).means("what drives it");
            net.needed("fanOut", whole(), One::fanOut).means("how many sinks it has");
            net.needed("vertices", whole(), One::vertices).means("how many it uses");
            net.needed("clock", Kinds.flag(), One::clock).means("whether it is a clock");
            var report = new Fields<Nets>();
            report.constant("format", "padward-nets/1");
            report.needed("nets", list(net.written()), Nets::nets).means("in the design's order");
            report.needed("leftOut", whole(), Nets::leftOut).means("how many more there are");
            return report.written();
        }
    }

    /**
     * {@code pads}: pads of a design's fabric.
     *
     * @param leftOut how many more there are
     */
    public record Pads(List<One> pads, int leftOut) {
        /** Copies the pads. */
        public Pads {
            pads = List.copyOf(pads);
        }

        /** A pad. */
        public record One(
                String pad,
                String packagePin,
                String bank,
                String directions,
                String port,
                String usedBy,
                String alsoCalled) {}

        /** Its form. */
        public static Form<Pads> form() {
            var pad = new Fields<One>();
            pad.needed("pad", text(), One::pad).means("its name");
            pad.needed("packagePin", text(), One::packagePin).means("its package pin");
            pad.needed("bank", text(), One::bank).means("its bank");
            pad.needed("directions", text(), One::directions).means("in which it can be used");
            pad.needed("port", text(), One::port).means("the port on it, with its direction");
            pad.needed("usedBy", text(), One::usedBy).means("what uses its IO register site");
            pad.needed("alsoCalled", text(), One::alsoCalled).means("its other names");
            var report = new Fields<Pads>();
            report.constant("format", "padward-pads/1");
            report.needed("pads", list(pad.written()), Pads::pads).means("in the fabric's order");
            report.needed("leftOut", whole(), Pads::leftOut).means("how many more there are");
            return report.written();
        }
    }
}
