package padward.breakout;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.clearance.Consequence;
import padward.clearance.SearchLimits;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.design.Net;
import padward.design.Replay;
import padward.fabric.Corner;
import padward.fabric.Pad;
import padward.route.Engine;

/**
 * A ledger carried over to another run of its design: each entry is checked; where one does not fit
 * any more, its lines can be searched again, one by one, on the same pads. A new way is taken when
 * it is open, or opens without anybody losing a signal; what it costs otherwise is for a person to
 * decide.
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
         * The line's old way still fits.
         *
         * @param net the net
         * @param pad the pad
         */
        record Same(String net, String pad) implements Line {}

        /**
         * A new way was found.
         *
         * @param net the net
         * @param pad the pad
         * @param way the new way
         * @param edits what it takes
         */
        record Found(String net, String pad, Way way, List<Edit> edits) implements Line {
            /** Copies the edits. */
            public Found {
                edits = List.copyOf(edits);
            }
        }

        /**
         * No new way that could be taken unasked.
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
     */
    public record Outcome(
            int index,
            LedgerEntry entry,
            List<String> reasons,
            List<Line> lines,
            List<Edit> edits) {
        /** Copies the lists. */
        public Outcome {
            reasons = List.copyOf(reasons);
            lines = List.copyOf(lines);
            edits = List.copyOf(edits);
        }

        /** Whether the entry fits as it is. */
        public boolean fits() {
            return reasons.isEmpty();
        }

        /** Whether all that the entry was for is there, in the old way or in a new one. */
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
        Replay replay = new Replay(base);
        List<Outcome> outcomes = new ArrayList<>();
        for (int i = 0; i < ledger.entries().size(); i++) {
            LedgerEntry entry = ledger.entries().get(i);
            progress.report((double) i / ledger.entries().size(), entry.what());
            List<String> reasons = replay.add(entry.edits());
            if (reasons.isEmpty()) {
                outcomes.add(new Outcome(i, entry, reasons, List.of(), entry.edits()));
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
            outcomes.add(new Outcome(i, entry, reasons, lines, edits));
        }
        return new CarryOver(replay.design(), outcomes);
    }

    /** Finds one line again, and applies what it takes. */
    private static Line line(
            Replay replay,
            LedgerEntry entry,
            Edit.BreakOut out,
            List<Edit> edits,
            SearchLimits limits,
            Progress progress) {
        Design now = replay.design();
        Optional<Net> net = now.findNet(out.net());
        List<Pad> pads = now.fabric().pads();
        int pad =
                IntStream.range(0, pads.size())
                        .filter(i -> pads.get(i).name().equals(out.pad()))
                        .findFirst()
                        .orElse(-1);
        if (net.isEmpty() || pad < 0) {
            String missing = net.isEmpty() ? "net " + out.net() : "pad " + out.pad();
            return new Line.Left(out.net(), out.pad(), "There is no " + missing + " any more.");
        }
        List<Edit> same = new ArrayList<>();
        now.findPortOn(pad)
                .map(p -> (Edit) new Edit.LetGoPort(p.name()))
                .filter(entry.edits()::contains)
                .ifPresent(same::add);
        same.add(out);
        if (replay.add(same).isEmpty()) {
            edits.addAll(same);
            return new Line.Same(out.net(), out.pad());
        }
        Answer answer =
                new Asker(now.fabric(), Engine.OWN)
                        .explained(
                                new Question(now, net.get(), pad, Corner.SLOW), limits, progress);
        return taken(replay, out, answer, edits);
    }

    private static Line taken(Replay replay, Edit.BreakOut out, Answer answer, List<Edit> edits) {
        if (answer instanceof Answer.Open open && !Keeping.isThere(open)) {
            return found(replay, out, open.way(), Keeping.of(open), edits);
        }
        if (answer instanceof Answer.Blocked blocked) {
            Optional<WhyBlocked.Option> harmless =
                    blocked.why().stream()
                            .flatMap(w -> w.options().stream())
                            .filter(CarryOver::costsNobody)
                            .findFirst();
            if (harmless.isPresent()) {
                WhyBlocked.Option option = harmless.get();
                return found(replay, out, option.way(), Keeping.of(blocked, option), edits);
            }
        }
        return new Line.Left(out.net(), out.pad(), AnswerText.sentence(answer));
    }

    private static boolean costsNobody(WhyBlocked.Option option) {
        return option.clearance().removals().stream()
                .noneMatch(r -> r.consequence() instanceof Consequence.Costly);
    }

    private static Line found(
            Replay replay, Edit.BreakOut out, Way way, List<Edit> takes, List<Edit> edits) {
        List<Edit> named = takes.stream().map(e -> named(e, out, replay.design())).toList();
        List<String> reasons = replay.add(named);
        if (!reasons.isEmpty()) {
            return new Line.Left(out.net(), out.pad(), String.join("; ", reasons));
        }
        edits.addAll(named);
        return new Line.Found(out.net(), out.pad(), way, named);
    }

    /** The new port bears the old one's name, if that is free. */
    private static Edit named(Edit edit, Edit.BreakOut old, Design now) {
        boolean free = now.ports().stream().noneMatch(p -> p.name().equals(old.port()));
        return edit instanceof Edit.BreakOut out && free
                ? new Edit.BreakOut(out.net(), old.port(), out.pad(), out.setting(), out.way())
                : edit;
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
