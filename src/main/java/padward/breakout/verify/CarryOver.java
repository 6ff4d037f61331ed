package padward.breakout.verify;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.WantedDriver;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.AnswerText;
import padward.breakout.text.PriceText;
import padward.change.Edit;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.fabric.delay.Corner;
import padward.route.search.SearchEngineKind;
import padward.unblock.move.Consequence;
import padward.unblock.why.SearchLimits;

/**
 * A ledger carried over to another run of its design: each entry is checked; where one does not fit
 * any more, its lines can be searched again, one by one, on the same pads. A new route is taken
 * when it costs nobody more than the entry did: it is open, or opens without anybody losing a
 * signal; only ports lose their pads that lost them by the entry; and nothing on the board follows
 * or drives that was not accepted. What it costs otherwise is for a person to decide.
 *
 * @param design the design with all that could be carried over
 * @param outcomes what became of each entry, in the ledger's order
 */
public record CarryOver(Design design, List<Outcome> outcomes) {
    /** Copies the outcomes. */
    public CarryOver {
        outcomes = List.copyOf(outcomes);
    }

    /** How one line was found again. */
    public sealed interface Line {
        /** The net. */
        String net();

        /** The pad. */
        String pad();

        /**
         * The line's old route still fits.
         *
         * @param net the net
         * @param pad the pad
         */
        record Same(String net, String pad) implements Line {}

        /**
         * A new route was found.
         *
         * @param net the net
         * @param pad the pad
         * @param route the new route
         * @param edits what it takes
         * @param price what it costs
         */
        record Found(String net, String pad, Route route, List<Edit> edits, Price price)
                implements Line {
            /** Copies the edits. */
            public Found {
                edits = List.copyOf(edits);
            }
        }

        /**
         * No new route that could be taken unasked.
         *
         * @param net the net
         * @param pad the pad
         * @param reason why, as a sentence
         */
        record Left(String net, String pad, String reason) implements Line {}
    }

    /**
     * What became of an entry.
     *
     * @param index which entry, from 0
     * @param entry the entry as it was
     * @param reasons what stood against it; empty when it fits as it is
     * @param lines its lines, when they were searched again
     * @param edits what is applied in the end; empty when nothing could be
     * @param price what that costs
     * @param cautions about its pads
     */
    public record Outcome(
            int index,
            LedgerEntry entry,
            List<String> reasons,
            List<Line> lines,
            List<Edit> edits,
            Price price,
            List<Cautions.Shared> cautions) {
        /** Copies the lists. */
        public Outcome {
            reasons = List.copyOf(reasons);
            lines = List.copyOf(lines);
            edits = List.copyOf(edits);
            cautions = List.copyOf(cautions);
        }

        /**
         * An entry that fits as it is.
         *
         * @param before the design before the entry
         */
        public static Outcome fitting(int index, LedgerEntry entry, Design before) {
            return of(index, entry, List.of(), List.of(), entry.edits(), before);
        }

        private static Outcome of(
                int index,
                LedgerEntry entry,
                List<String> reasons,
                List<Line> lines,
                List<Edit> edits,
                Design before) {
            return new Outcome(
                    index,
                    entry,
                    reasons,
                    lines,
                    edits,
                    KeptPrice.of(before, edits),
                    Cautions.ofEdits(before, edits));
        }

        /** Whether the entry fits as it is. */
        public boolean fits() {
            return reasons.isEmpty();
        }

        /** Whether all that the entry was for is there, in the old route or in a new one. */
        public boolean isWhole() {
            return fits()
                    || !edits.isEmpty() && lines.stream().noneMatch(l -> l instanceof Line.Left);
        }
    }

    /**
     * Carries a ledger over.
     *
     * @param base the other run
     * @param searchAgain whether lines that do not fit are searched again
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    public static CarryOver of(
            Ledger ledger,
            Design base,
            boolean searchAgain,
            SearchLimits limits,
            Progress progress) {
        EntryReplay replay = new EntryReplay(base);
        List<Outcome> outcomes = new ArrayList<>();
        for (int i = 0; i < ledger.entries().size(); i++) {
            LedgerEntry entry = ledger.entries().get(i);
            progress.report((double) i / ledger.entries().size(), entry.what());
            Design before = replay.design();
            List<String> reasons = replay.add(entry.edits());
            if (reasons.isEmpty()) {
                outcomes.add(Outcome.fitting(i, entry, before));
                continue;
            }
            List<Line> lines = new ArrayList<>();
            List<Edit> edits = new ArrayList<>();
            if (searchAgain) {
                for (Edit edit : entry.edits()) {
                    if (edit instanceof Edit.BreakOut out) {
                        lines.add(line(replay, entry, out, edits, limits, progress));
                    }
                }
            }
            outcomes.add(Outcome.of(i, entry, reasons, lines, edits, before));
        }
        return new CarryOver(replay.design(), outcomes);
    }

    /** Finds one line again, and applies what it takes. */
    private static Line line(
            EntryReplay replay,
            LedgerEntry entry,
            Edit.BreakOut out,
            List<Edit> edits,
            SearchLimits limits,
            Progress progress) {
        Design now = replay.design();
        Optional<Net> net = now.findNet(out.net());
        OptionalInt found = PadNames.findExact(now.fabric(), out.pad());
        boolean added =
                entry.edits().stream()
                        .anyMatch(e -> e instanceof Edit.AddNet a && a.net().equals(out.net()));
        if (added) {
            return new Line.Left(
                    out.net(),
                    out.pad(),
                    "The entry's watch circuit does not fit this run as it is, and its cells are"
                            + " not searched again: place it again with watch.");
        }
        if (net.isEmpty() || found.isEmpty()) {
            String missing = net.isEmpty() ? "Net " + out.net() : "Pad " + out.pad();
            return new Line.Left(out.net(), out.pad(), missing + " no longer exists.");
        }
        int pad = found.getAsInt();
        List<Edit> same = new ArrayList<>();
        now.findPortOn(pad)
                .map(p -> (Edit) new Edit.DisconnectPort(p.name()))
                .filter(entry.edits()::contains)
                .ifPresent(same::add);
        same.add(out);
        entry.edits().stream().filter(e -> isOfPort(e, out.port())).forEach(same::add);
        if (replay.add(same).isEmpty()) {
            edits.addAll(same);
            return new Line.Same(out.net(), out.pad());
        }
        Answer answer =
                new Asker(now.fabric(), SearchEngineKind.OWN)
                        .explained(
                                new Question(
                                        now, net.get(), pad, Corner.SLOW, driverOf(entry, out)),
                                limits,
                                progress);
        return taken(replay, entry, out, answer, edits);
    }

    /** Whether an edit sets the driver of a port, or ties its enable. */
    private static boolean isOfPort(Edit edit, String port) {
        return edit instanceof Edit.SetDriver set && set.port().equals(port)
                || edit instanceof Edit.TieEnable tie && tie.port().equals(port);
    }

    /** The driver's setting that the entry had given the line, which it keeps. */
    private static WantedDriver driverOf(LedgerEntry entry, Edit.BreakOut out) {
        String setting = out.setting();
        for (Edit edit : entry.edits()) {
            if (edit instanceof Edit.SetDriver set && set.port().equals(out.port())) {
                setting = set.setting();
            }
        }
        return WantedDriver.of(setting);
    }

    private static Line taken(
            EntryReplay replay,
            LedgerEntry entry,
            Edit.BreakOut out,
            Answer answer,
            List<Edit> edits) {
        Optional<String> more = costsMore(entry, answer.question());
        if (more.isPresent()) {
            return new Line.Left(out.net(), out.pad(), more.get());
        }
        if (answer instanceof Answer.FreeRoute free && !AnswerEdits.isThere(free)) {
            return found(replay, out, free.route(), AnswerEdits.of(free), Price.of(answer), edits);
        }
        if (answer instanceof Answer.Blocked blocked) {
            Optional<WhyBlocked.Option> audit =
                    blocked.why().stream()
                            .flatMap(w -> w.options().stream())
                            .filter(CarryOver::costsNobody)
                            .findFirst();
            if (audit.isPresent()) {
                WhyBlocked.Option option = audit.get();
                Price price = Price.of(blocked.question(), option.option().removals());
                return found(
                        replay, out, option.route(), AnswerEdits.of(blocked, option), price, edits);
            }
        }
        return new Line.Left(out.net(), out.pad(), AnswerText.sentence(answer));
    }

    /** What the pad costs now that the entry had not taken or accepted, as a sentence. */
    private static Optional<String> costsMore(LedgerEntry entry, Question question) {
        Price price = Price.ofPad(question);
        for (Price.LosingPort port : price.ports()) {
            if (!entry.edits().contains(new Edit.DisconnectPort(port.name()))) {
                return Optional.of(
                        "Port "
                                + port.name()
                                + " has the pad in this run, and the entry did not disconnect it.");
            }
        }
        List<String> accepted =
                entry.accepted().stream().map(LedgerEntry.Acceptance::what).toList();
        List<String> needed = PriceText.words(price.toAccept());
        return accepted.containsAll(needed)
                ? Optional.empty()
                : Optional.of(
                        "The entry has no acceptance of this: "
                                + PriceText.consequences(price)
                                + ".");
    }

    private static boolean costsNobody(WhyBlocked.Option option) {
        return option.option().removals().stream()
                .noneMatch(r -> r.consequence() instanceof Consequence.LosesFunction);
    }

    private static Line found(
            EntryReplay replay,
            Edit.BreakOut out,
            Route route,
            List<Edit> takes,
            Price price,
            List<Edit> edits) {
        // The new port has the old one's name, if that is free.
        boolean taken = replay.design().ports().stream().anyMatch(p -> p.name().equals(out.port()));
        List<Edit> named = taken ? takes : takes.stream().map(e -> named(e, out.port())).toList();
        List<String> reasons = replay.add(named);
        if (!reasons.isEmpty()) {
            return new Line.Left(out.net(), out.pad(), String.join("; ", reasons));
        }
        edits.addAll(named);
        return new Line.Found(out.net(), out.pad(), route, named, price);
    }

    private static Edit named(Edit edit, String as) {
        if (edit instanceof Edit.BreakOut out) {
            return new Edit.BreakOut(out.net(), as, out.pad(), out.setting(), out.route());
        }
        if (edit instanceof Edit.SetDriver set) {
            return new Edit.SetDriver(as, set.setting());
        }
        return edit instanceof Edit.TieEnable ? new Edit.TieEnable(as) : edit;
    }

    /** What does not fit as it is. */
    public List<Outcome> misfits() {
        return outcomes.stream().filter(o -> !o.fits()).toList();
    }

    /** Whether everything that the ledger was for is there. */
    public boolean isWhole() {
        return outcomes.stream().allMatch(Outcome::isWhole);
    }
}
