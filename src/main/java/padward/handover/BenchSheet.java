package padward.handover;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import padward.breakout.ask.BankOutputs;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.DriverFit;
import padward.breakout.group.ForwardedClock;
import padward.change.Edit;
import padward.change.EntryReplay;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.PadNames;
import padward.design.Terminal;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.Pad;
import padward.fabric.delay.Delay;
import padward.fabric.pad.DriverSetting;
import padward.fabric.pad.EdgeDelays;
import padward.timing.Arrival;
import padward.timing.ExternalLineDelay;
import padward.timing.Instrument;
import padward.timing.LaunchTime;
import padward.timing.LineTiming;
import padward.timing.TimeStampCorrections;
import padward.timing.ValidTimes;
import padward.watch.circuit.Lateness;

/**
 * The sheet that is taken to the bench: where each signal is found, and its delay there; one page
 * for each breakout or group in a ledger.
 *
 * @param title name of the design
 * @param fabric name of the fabric
 * @param board name of the board, may be empty
 * @param external what is between pads and instrument, as used in the calculation
 * @param pages in the ledger's order; entries whose nets are no longer on a pad have none
 * @param missing a sentence for each line of an entry that a later one has removed
 * @param valid when the lines are valid, relative to a clock on a channel; empty when not asked
 */
public record BenchSheet(
        String title,
        String fabric,
        String board,
        ExternalLineDelay external,
        List<Page> pages,
        List<String> missing,
        Optional<ValidTimes> valid) {
    /** Copies the lists. */
    public BenchSheet {
        pages = List.copyOf(pages);
        missing = List.copyOf(missing);
    }

    /**
     * One page.
     *
     * @param number the entry's number in the ledger, from 1
     * @param entry the entry
     * @param lines one for each net that it brings out
     * @param restore the steps that restore the design
     * @param banks the outputs of the banks of its pads, before and after
     * @param cautions to be read before a pad is driven
     */
    public record Page(
            int number,
            LedgerEntry entry,
            List<Line> lines,
            List<String> restore,
            List<BankOutputs> banks,
            List<Cautions.Shared> cautions) {
        /** Copies the lists. */
        public Page {
            banks = List.copyOf(banks);
            lines = List.copyOf(lines);
            restore = List.copyOf(restore);
            cautions = List.copyOf(cautions);
        }

        /** By how many cycles its lines are late, a clause for all that are equally so. */
        public List<String> lateTexts() {
            Map<String, List<String>> channels = new LinkedHashMap<>();
            lines.forEach(
                    l ->
                            l.late()
                                    .ifPresent(
                                            late ->
                                                    channels.computeIfAbsent(
                                                                    late.toText(),
                                                                    t -> new ArrayList<>())
                                                            .add("" + l.channel())));
            boolean same =
                    channels.size() == 1 && lines.stream().allMatch(l -> l.late().isPresent());
            return same
                    ? List.copyOf(channels.keySet())
                    : channels.entrySet().stream()
                            .map(
                                    e ->
                                            (e.getValue().size() == 1 ? "channel " : "channels ")
                                                    + String.join(", ", e.getValue())
                                                    + ": "
                                                    + e.getKey())
                            .toList();
        }
    }

    /**
     * One signal.
     *
     * @param lead the instrument's lead on it, with its channel
     * @param net the net
     * @param polarity what a high level on the pad means, as a clause
     * @param inverted whether the pad shows the inverse of the net
     * @param port the port that brings it out
     * @param pad the pad's name
     * @param packagePin pin or ball of the package
     * @param place where the lead is connected; empty when the board's description has no place for
     *     it
     * @param boardNet the board's net on the pad; empty when unknown
     * @param setting the pad driver's setting
     * @param timing when its signal arrives at the instrument, and how it is seen there
     * @param late by how many cycles registers that the entry adds make it late
     * @param source the net of which it is a later copy, through those registers and nothing else
     * @param takenPs the delay to the instrument that corrections are calculated from, ps: the
     *     measured one, the mean of all such put where it is calculated, or the middle of the range
     * @param addToTimePs what to add to this channel's time stamps so that all channels of the
     *     sheet are level with the latest, by {@code takenPs}, ps
     */
    public record Line(
            LedgerLead lead,
            String net,
            String polarity,
            boolean inverted,
            String port,
            String pad,
            String packagePin,
            Optional<Attachment> place,
            String boardNet,
            Optional<DriverSetting> setting,
            LineTiming timing,
            Optional<Lateness> late,
            Optional<String> source,
            long takenPs,
            long addToTimePs) {
        /** Delay from the net's driver to the pin, at the driver's rated load. */
        public Delay atPin() {
            return timing.chain().atPin();
        }

        /** Delay to the instrument, at the load that is stated. */
        public Delay atInstrument() {
            return timing.chain().atInstrument();
        }

        /** The same line with a measured delay. */
        private Line measured(LedgerLead.Measured delay) {
            return new Line(
                    lead.withMeasured(Optional.of(delay)),
                    net,
                    polarity,
                    inverted,
                    port,
                    pad,
                    packagePin,
                    place,
                    boardNet,
                    setting,
                    timing,
                    late,
                    source,
                    takenPs,
                    addToTimePs);
        }

        /** What is between its pin and the instrument. */
        private ExternalLineDelay between(ExternalLineDelay external) {
            return BenchSheet.between(lead, external);
        }

        /** Its channel, from 1. */
        public int channel() {
            return lead.channel();
        }

        private Line with(long taken, long add) {
            return new Line(
                    lead,
                    net,
                    polarity,
                    inverted,
                    port,
                    pad,
                    packagePin,
                    place,
                    boardNet,
                    setting,
                    timing,
                    late,
                    source,
                    taken,
                    add);
        }

        /** How far each of its driver's two edges is from the middle between them, ps. */
        private int halfApartPs() {
            return timing.chain().output().edges().map(EdgeDelays::halfApartPs).orElse(0);
        }

        /** By how much the calculated delay is above the measured one, where there is one. */
        private Optional<Long> aboveMeasuredPs() {
            return lead.measured().map(m -> (long) atInstrument().middlePs() - m.ps());
        }
    }

    /** All lines, in the order of their channels. */
    public List<Line> lines() {
        return pages.stream().flatMap(p -> p.lines().stream()).toList();
    }

    /**
     * The same sheet with measured delays, and corrections that are calculated from them.
     *
     * @param delays finds the measured delay of a line, if there is one
     */
    public BenchSheet measured(Function<Line, Optional<LedgerLead.Measured>> delays) {
        List<Page> changed = new ArrayList<>();
        for (Page page : pages) {
            List<Line> lines =
                    page.lines().stream()
                            .map(l -> delays.apply(l).map(l::measured).orElse(l))
                            .toList();
            changed.add(
                    new Page(
                            page.number(),
                            page.entry(),
                            lines,
                            page.restore(),
                            page.banks(),
                            page.cautions()));
        }
        return new BenchSheet(title, fabric, board, external, corrected(changed), missing, valid);
    }

    /**
     * The same sheet with the times at which its lines are valid.
     *
     * @param clockLine the line that shows the clock
     * @param design the design with the ledger
     * @param periodPs the clock's period, ps; 0 when not known
     * @param localPercent by how much two routes of the same delay can differ on one die
     */
    public BenchSheet withValidTimes(
            Line clockLine, Design design, double periodPs, double localPercent) {
        Net shown = design.findNet(clockLine.net()).orElseThrow();
        // A copy of a clock, forwarded by a register, is as much later than the clock itself.
        Net clock = ForwardedClock.clockOf(design, shown).orElse(shown);
        Delay before =
                clock.equals(shown)
                        ? Delay.ZERO
                        : LaunchTime.of(design, shown).latest().orElse(Delay.ZERO);
        List<ValidTimes.Entry> entries =
                lines().stream()
                        .filter(l -> l.channel() != clockLine.channel())
                        .map(l -> valid(l, clockLine, before, design, clock, localPercent))
                        .toList();
        ValidTimes times =
                new ValidTimes(clock.name(), "channel " + clockLine.channel(), periodPs, entries);
        return new BenchSheet(title, fabric, board, external, pages, missing, Optional.of(times));
    }

    /**
     * When a line is valid: by the measured difference between it and the clock's line, where both
     * were measured, else as calculated.
     *
     * @param before from the clock's driver to that of the net on the clock's line
     */
    private static ValidTimes.Entry valid(
            Line line,
            Line clockLine,
            Delay before,
            Design design,
            Net clock,
            double localPercent) {
        Optional<LedgerLead.Measured> own = line.lead().measured();
        Optional<LedgerLead.Measured> other = clockLine.lead().measured();
        Function<Delay, Arrival> arrives = launch -> line.timing().chain().arrival().after(launch);
        Arrival clockArrival = clockLine.timing().chain().arrival().after(before);
        String how = "";
        if (own.isPresent() && other.isPresent()) {
            int later = own.get().ps() - other.get().ps();
            // A measured delay is the mean of both edges: either is so far from it.
            int tolerance =
                    own.get().tolerancePs()
                            + other.get().tolerancePs()
                            + line.halfApartPs()
                            + clockLine.halfApartPs();
            arrives = launch -> new Arrival(launch, later, tolerance);
            clockArrival = new Arrival(before, 0, 0);
            how = ", measured";
        }
        return ValidTimes.entry(
                line.port(),
                "Channel " + line.channel() + ", " + line.net() + how,
                line.setting().map(DriverSetting::millivolts).orElse(0),
                design,
                design.findNet(line.net()).orElseThrow(),
                clock,
                arrives,
                clockArrival,
                localPercent);
    }

    /** When a line is valid, if that was asked and is known. */
    public Optional<ValidTimes.Window> validTimeOf(Line line) {
        return valid.flatMap(
                v ->
                        v.entries().stream()
                                .filter(e -> e.key().equals(line.port()))
                                .findFirst()
                                .flatMap(ValidTimes.Entry::window));
    }

    /**
     * The sheet of a ledger.
     *
     * @param base the design without the ledger
     * @param after the design with it
     */
    public static BenchSheet of(
            Design base,
            Ledger ledger,
            Design after,
            ExternalLineDelay external,
            Instrument instrument) {
        List<Page> pages = new ArrayList<>();
        List<String> missing = new ArrayList<>();
        List<List<LedgerLead>> leads = LedgerLead.all(ledger.entries());
        EntryReplay replay = new EntryReplay(base);
        for (int i = 0; i < ledger.entries().size(); i++) {
            LedgerEntry entry = ledger.entries().get(i);
            List<Line> lines = new ArrayList<>();
            Set<String> gone = new HashSet<>();
            Design before = replay.design();
            replay.add(entry.edits());
            for (Edit edit : entry.edits()) {
                if (edit instanceof Edit.BreakOut out) {
                    LedgerLead lead = lead(leads.get(i), out.port());
                    Optional<Line> line = line(after, out, lead, entry, external, instrument);
                    line.ifPresent(lines::add);
                    if (line.isEmpty()) {
                        missing.add(missing(base, ledger, i, out));
                        gone.add(out.port());
                    }
                }
            }
            if (!lines.isEmpty()) {
                pages.add(
                        new Page(
                                i + 1,
                                entry,
                                lines,
                                restore(i + 1, entry),
                                BankOutputs.of(before, entry.edits()),
                                cautions(
                                        before,
                                        present(entry.edits(), gone),
                                        lines,
                                        external,
                                        after)));
            }
        }
        return new BenchSheet(
                base.name(),
                base.fabric().info().name(),
                base.board().name(),
                external,
                corrected(pages),
                missing,
                Optional.empty());
    }

    /** All edits but those of lines that a later entry has removed. */
    private static List<Edit> present(List<Edit> edits, Set<String> gone) {
        return edits.stream()
                .filter(e -> !(e instanceof Edit.BreakOut out && gone.contains(out.port())))
                .filter(e -> !(e instanceof Edit.TieEnable tie && gone.contains(tie.port())))
                .toList();
    }

    /** What to heed before the leads of a page are connected, the gravest first. */
    private static List<Cautions.Shared> cautions(
            Design before,
            List<Edit> edits,
            List<Line> lines,
            ExternalLineDelay external,
            Design after) {
        List<Cautions.Shared> result = new ArrayList<>(Cautions.ofLoading(before, edits));
        for (Line line : lines) {
            int pad = padIndex(after, line.pad());
            Ringing.of(
                            line.timing().seen().rise(),
                            after.board().findWiring(pad),
                            line.between(external))
                    .ifPresent(c -> result.add(new Cautions.Shared(List.of(line.pad()), c)));
        }
        List<String> pads = lines.stream().map(Line::pad).toList();
        result.add(new Cautions.Shared(pads, Cautions.HANDLING));
        result.sort(Comparator.comparing(s -> s.caution().kind()));
        return result;
    }

    /** Says which entry has removed a line. O(what the entries up to that one touch). */
    private static String missing(Design base, Ledger ledger, int number, Edit.BreakOut out) {
        EntryReplay replay = new EntryReplay(base);
        int by = 0;
        while (by <= number || by < ledger.entries().size() && isThere(replay.design(), out)) {
            replay.add(ledger.entries().get(by).edits());
            by++;
        }
        return String.format(
                Locale.ROOT,
                "Entry %d brought net %s out on pad %s; entry %d removes it from there.",
                number + 1,
                out.net(),
                out.pad(),
                by);
    }

    private static boolean isThere(Design design, Edit.BreakOut out) {
        int pad = design.fabric().pads().get(padIndex(design, out.pad())).vertex();
        return design.findNet(out.net()).filter(n -> n.route().placeOf(pad) >= 0).isPresent();
    }

    /** The pages with the corrections of all their lines. */
    private static List<Page> corrected(List<Page> pages) {
        List<Line> all = pages.stream().flatMap(p -> p.lines().stream()).toList();
        long level =
                TimeStampCorrections.levelPs(
                        all.stream().map(Line::aboveMeasuredPs).flatMap(Optional::stream).toList());
        List<Long> taken =
                all.stream()
                        .map(
                                l ->
                                        l.lead()
                                                .measured()
                                                .map(m -> m.ps() + level)
                                                .orElse((long) l.atInstrument().middlePs()))
                        .toList();
        List<Long> shifts = TimeStampCorrections.ofTakenPs(taken);
        List<Page> result = new ArrayList<>();
        int place = 0;
        for (Page page : pages) {
            List<Line> lines = new ArrayList<>();
            for (Line line : page.lines()) {
                lines.add(line.with(taken.get(place), shifts.get(place)));
                place++;
            }
            result.add(
                    new Page(
                            page.number(),
                            page.entry(),
                            lines,
                            page.restore(),
                            page.banks(),
                            page.cautions()));
        }
        return result;
    }

    private static List<String> restore(int number, LedgerEntry entry) {
        List<String> steps = new ArrayList<>();
        steps.add(
                "Take the leads off, power off. Power on and load the earlier design, whose file has"
                        + " not been changed.");
        steps.add(
                "To remove this entry from the ledger: padward undo --design FILE --ledger FILE"
                        + " --entry "
                        + number
                        + ". This restores "
                        + restored(entry)
                        + ".");
        return steps;
    }

    private static String restored(LedgerEntry entry) {
        List<String> all =
                entry.edits().stream()
                        .filter(e -> !(e instanceof Edit.BreakOut))
                        .map(Edit::toText)
                        .toList();
        String rest = "the pad" + (entry.edits().size() - all.size() > 1 ? "s" : "");
        if (all.isEmpty()) {
            return rest;
        }
        int most = 8;
        String more = all.size() > most ? " and " + (all.size() - most) + " more" : "";
        return rest
                + ", and undoes: "
                + String.join("; ", all.subList(0, Math.min(most, all.size())))
                + more;
    }

    private static int padIndex(Design design, String name) {
        return PadNames.findExact(design.fabric(), name)
                .orElseThrow(() -> new IllegalArgumentException("there is no pad " + name));
    }

    private static LedgerLead lead(List<LedgerLead> leads, String port) {
        return leads.stream().filter(l -> l.port().equals(port)).findFirst().orElseThrow();
    }

    /** A length that the ledger states for a lead counts, whatever is usual on the sheet. */
    private static ExternalLineDelay between(LedgerLead lead, ExternalLineDelay external) {
        return lead.metres().map(external::withMetres).orElse(external);
    }

    /** Empty when a later entry has disconnected the net from the pad. */
    private static Optional<Line> line(
            Design after,
            Edit.BreakOut out,
            LedgerLead lead,
            LedgerEntry entry,
            ExternalLineDelay external,
            Instrument instrument) {
        int index = padIndex(after, out.pad());
        Pad pad = after.fabric().pads().get(index);
        Optional<Net> net = after.findNet(out.net());
        int place = net.map(n -> n.route().placeOf(pad.vertex())).orElse(-1);
        if (place < 0) {
            return Optional.empty();
        }
        Optional<DriverSetting> setting =
                after.fabric().info().findSetting(DriverFit.standing(after, index));
        Optional<PadWiring> wiring = after.board().findWiring(index);
        Optional<Net> copied = ForwardedClock.clockOf(after, net.get());
        Optional<String> source = Lateness.source(entry, out.net(), after);
        return Optional.of(
                new Line(
                        lead,
                        out.net(),
                        copied.map(Net::name)
                                .or(() -> source)
                                .map(
                                        n ->
                                                (pad.use().driving().inverts()
                                                                ? "the inverse of "
                                                                : "as ")
                                                        + n)
                                .orElseGet(() -> polarity(after, net.get(), pad)),
                        pad.use().driving().inverts(),
                        out.port(),
                        pad.name(),
                        pad.packagePin(),
                        wiring.flatMap(PadWiring::findLeadPlace),
                        wiring.map(PadWiring::net).orElse(""),
                        setting,
                        LineTiming.of(
                                after,
                                net.get().route(),
                                index,
                                setting,
                                between(lead, external),
                                instrument,
                                net.get().clock() || copied.isPresent()),
                        Lateness.of(entry, out.net(), after),
                        source,
                        0,
                        0));
    }

    /** A path to a pad may invert; then the pad shows the inverse of the net. */
    private static String polarity(Design design, Net net, Pad pad) {
        if (!pad.use().driving().inverts()) {
            return polarity(design, net);
        }
        Optional<String> origin = inverseOf(design, net);
        return "the inverse of the net" + origin.map(n -> ", so as " + n).orElse("");
    }

    /**
     * Routes do not invert; a net can be the inverse of another through the cell that drives it.
     */
    private static String polarity(Design design, Net net) {
        return inverseOf(design, net)
                .map(n -> "as the net, the inverse of " + n)
                .orElse("as the net");
    }

    /** The net of which a net is the inverse. */
    private static Optional<String> inverseOf(Design design, Net net) {
        if (!(net.driver() instanceof Terminal.CellPin at)) {
            return Optional.empty();
        }
        Cell cell = design.cells().get(at.cell());
        if (!"not".equals(cell.settings().get("function"))) {
            return Optional.empty();
        }
        return design.netsAt(cell.id()).stream()
                .filter(n -> n.id() != net.id())
                .filter(n -> n.sinks().stream().anyMatch(t -> isAt(t, cell.id())))
                .findFirst()
                .map(Net::name);
    }

    private static boolean isAt(Terminal end, int cell) {
        return end instanceof Terminal.CellPin at && at.cell() == cell;
    }
}
