package padward.cli.output;

import java.io.PrintWriter;
import java.math.BigDecimal;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.breakout.ask.Cautions;
import padward.breakout.ask.ClockForwarding;
import padward.breakout.ask.Price;
import padward.breakout.ask.Question;
import padward.breakout.group.Bus;
import padward.breakout.group.ForwardedClock;
import padward.breakout.group.MatchedGroup;
import padward.breakout.group.UnblockedGroup;
import padward.breakout.text.PriceText;
import padward.breakout.text.WhyText;
import padward.change.Edit;
import padward.change.LedgerLead;
import padward.design.Design;
import padward.design.board.Attachment;
import padward.design.board.PadWiring;
import padward.fabric.Pad;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.timing.ExternalLineDelay;
import padward.timing.PadLoad;
import padward.timing.PairSkew;
import padward.timing.TimeStampCorrections;
import padward.timing.ValidTimes;

/** A group as text. */
public final class BusTable {
    private static final int MOST_PAIRS = 8;

    private final Design design;
    private final Bus bus;
    private final ExternalLineDelay external;
    private final double localPercent;
    private final Price price;

    /**
     * A group.
     *
     * @param localPercent by how much two routes of the same delay can differ on one die
     * @param price what it costs
     */
    public BusTable(
            Design design, Bus bus, ExternalLineDelay external, double localPercent, Price price) {
        this.localPercent = localPercent;
        this.price = price;
        this.design = design;
        this.bus = bus;
        this.external = external;
    }

    /**
     * All of it.
     *
     * @param progress stops the search for routes on which clocks are forwarded, which is reported
     */
    public void print(PrintWriter out, Progress progress) {
        if (!bus.lines().isEmpty()) {
            printLines(out);
        }
        bus.notServed().forEach(text -> out.println("Not served: " + text + "."));
        bus.proof().ifPresent(p -> out.println(proofText(p)));
        bus.bound().ifPresent(b -> out.println(boundText(b)));
        if (bus.lines().isEmpty()) {
            return;
        }
        printClocks(out, progress);
        printSkew(out);
        out.println();
        printEdits(out);
    }

    /** What changes, what that costs, and what to heed. */
    public void printEdits(PrintWriter out) {
        if (design.fabric().info().electrical().isUnknown()) {
            out.println("No load data: delay added to the nets' other sinks is not calculated.");
        }
        SinkDelayTable.print(design, bus.edits(), out);
        out.println();
        out.println("Edits:");
        bus.edits().stream().map(Edit::toText).forEach(e -> out.println("  " + e));
        out.println();
        out.println("What it costs: " + PriceText.sentences(price));
        CautionTable.printShared(Cautions.ofEdits(design, bus.edits()), out);
    }

    private static String boundText(Bus.Bound known) {
        return known.stopped()
                ? "Stopped: " + known.toText() + ". Allow more time with --within-ms."
                : "Not proven that no other choice is better: " + known.toText() + ".";
    }

    private String proofText(Bus.Proof proof) {
        int served = bus.lines().size();
        return proof.bottleneck().isEmpty()
                ? "Proven: no choice of these pads has a lower price, nor a smaller sum of delays"
                        + " at the same price."
                : "Proven: no more than "
                        + served
                        + " of the "
                        + (served + bus.left().size())
                        + " nets can be brought out together"
                        + proof.oneMore().map(o -> "; " + o.toText()).orElse("")
                        + ".";
    }

    /** Reports for clocks whether they are forwarded. */
    private void printClocks(PrintWriter out, Progress progress) {
        for (Bus.Line line : bus.lines()) {
            if (line.net().clock()) {
                printClock(line, out, progress);
            }
        }
    }

    private void printClock(Bus.Line line, PrintWriter out, Progress progress) {
        Question question = new Question(design, line.net(), line.pad(), Corner.SLOW);
        try {
            ClockForwarding forwarding = ClockForwarding.of(question, line.route(), progress);
            out.println(line.net().name() + ": " + forwarding.toText());
            ForwardedClock.hint(question, forwarding.route().isPresent(), progress)
                    .ifPresent(out::println);
        } catch (CancellationException stopped) {
            out.println(
                    line.net().name()
                            + ": the search was stopped before it was known whether the clock can"
                            + " stay on its own kinds of wire.");
        }
    }

    private void printLines(PrintWriter out) {
        TextTable table =
                new TextTable(
                        "net",
                        "pad",
                        "pin",
                        "header",
                        "at the pin, rated load",
                        "at the instrument",
                        "add to time stamps");
        List<Delay> there =
                bus.lines().stream().map(l -> l.atInstrument(design, external)).toList();
        List<Integer> shifts = TimeStampCorrections.ofPs(there);
        for (int i = 0; i < there.size(); i++) {
            Bus.Line line = bus.lines().get(i);
            Pad pad = Bus.padOf(design, line);
            table.row(
                    line.net().name(),
                    pad.name(),
                    pad.packagePin(),
                    header(line.pad()),
                    line.route().total().toText(),
                    there.get(i).toText(),
                    String.format(Locale.ROOT, "%+.3f ns", shifts.get(i) / 1000.0));
        }
        table.print(out);
        loadText().ifPresent(out::println);
        out.println("Leads of " + LedgerLead.metresText(external.metres()) + " m (--lead-m).");
    }

    /**
     * Says what the delays at the instrument are calculated for; nothing where load does not
     * matter.
     */
    private Optional<String> loadText() {
        List<Bus.Line> loaded = bus.lines().stream().filter(l -> load(l).picofarads() > 0).toList();
        if (loaded.isEmpty()) {
            return Optional.empty();
        }
        List<String> unknown =
                loaded.stream()
                        .filter(l -> !load(l).known())
                        .map(l -> Bus.padOf(design, l).name())
                        .toList();
        return Optional.of(
                unknown.isEmpty()
                        ? "At the instrument: with the loads that the board's file states and "
                                + plain(external.probePf())
                                + " pF for the lead's tip."
                        : "Load not stated, so the rated load is taken: "
                                + (unknown.size() == bus.lines().size()
                                        ? "all pads"
                                        : String.join(", ", unknown))
                                + ".");
    }

    private PadLoad load(Bus.Line line) {
        return line.output(design, external).load();
    }

    private static String plain(double value) {
        return BigDecimal.valueOf(value).stripTrailingZeros().toPlainString();
    }

    private String header(int pad) {
        return design.board()
                .findWiring(pad)
                .flatMap(PadWiring::findLeadPlace)
                .map(Attachment::toShortText)
                .orElse("");
    }

    private void printSkew(PrintWriter out) {
        List<Bus.Skew> skews = bus.skews(design, external, localPercent);
        if (skews.isEmpty()) {
            return;
        }
        Bus.Skew worst = skews.get(0);
        out.println();
        out.printf(
                Locale.ROOT,
                "Greatest skew at the instrument: %s, between %s and %s: %s by their routes,"
                        + " ± %s local variation, ± %s package, board and leads.%n",
                ns(worst.skew().mostPs()),
                worst.one().net().name(),
                worst.other().net().name(),
                ns(Math.max(worst.skew().fastPs(), worst.skew().slowPs())),
                ns(worst.skew().localPs()),
                ns(worst.skew().outsidePs()));
        TextTable table =
                new TextTable(
                        "between", "and", "fast corner", "slow corner", "uncertain by", "at most");
        for (Bus.Skew pair : skews.subList(0, Math.min(MOST_PAIRS, skews.size()))) {
            PairSkew skew = pair.skew();
            table.row(
                    pair.one().net().name(),
                    pair.other().net().name(),
                    ns(skew.fastPs()),
                    ns(skew.slowPs()),
                    "± " + ns(skew.uncertainPs()),
                    ns(skew.mostPs()));
        }
        table.print(out);
        if (skews.size() > MOST_PAIRS) {
            out.println("and " + (skews.size() - MOST_PAIRS) + " pairs with less skew");
        }
        if (!bus.isStopped()) {
            printLeastSum(out);
        }
        if (design.board().wirings().isEmpty()) {
            out.println("No board is described: the delays of traces are not included.");
        }
    }

    private void printLeastSum(PrintWriter out) {
        double gap = 100.0 * (bus.totalPs() - bus.alonePs()) / Math.max(1, bus.alonePs());
        out.printf(
                Locale.ROOT,
                "Sum of the slow-corner delays %.3f ns; lower bound for these pads %.3f ns: at "
                        + "most %.1f %% better possible.%n",
                bus.totalPs() / 1000.0,
                bus.alonePs() / 1000.0,
                gap);
    }

    /** When the lines are valid relative to a clock. */
    public static void printValid(ValidTimes valid, PrintWriter out) {
        out.println();
        out.println(
                "Valid at the instrument, after rising edges of "
                        + valid.clock()
                        + " on "
                        + valid.channel()
                        + ":");
        valid.entries().forEach(e -> out.println("  " + e.toText()));
        valid.advice().forEach(out::println);
    }

    /** What is removed, or could be, so that all nets are served. */
    public static void printUnblocked(
            Design design, UnblockedGroup unblocked, boolean done, PrintWriter out) {
        int served = unblocked.bus().lines().size();
        int count = unblocked.removed().size();
        out.println();
        out.println(
                (done ? "Removed to serve " : "To be removed to serve ")
                        + served
                        + " of "
                        + (served + unblocked.bus().left().size())
                        + " nets: "
                        + (count == 0 ? "none" : String.valueOf(count))
                        + (unblocked.provenMinimum()
                                ? ", proven minimum."
                                : ", not proven to be the minimum, which is at least "
                                        + unblocked.lowerBound()
                                        + "."));
        for (UnblockedGroup.Removed removed : unblocked.removed()) {
            Question question = removed.blocked().question();
            out.println(
                    "  "
                            + WhyText.who(removed.removal().occupant())
                            + ", for "
                            + question.net().name()
                            + " on "
                            + question.padValue().name());
            out.println("    " + WhyText.consequence(removed.blocked(), removed.removal()));
        }
        if (!done) {
            out.println("  What it would cost: " + PriceText.sentences(unblocked.price(design)));
        }
        for (Bus.Left left : unblocked.bus().left()) {
            out.println("  Still not served: " + left.net().name() + ": " + left.reason() + ".");
        }
        if (!done) {
            out.println("The option --unblock does this.");
        }
    }

    /**
     * Reports that the time ran out before it was known what to remove.
     *
     * @param wanted whether it was to be removed
     * @param withheld whether the group is therefore not recorded
     */
    public static void printUnblockingStopped(boolean wanted, boolean withheld, PrintWriter out) {
        out.println();
        out.println(
                (wanted
                                ? "Unblocking was stopped before its end, so nothing is removed: this is"
                                        + " the group without it."
                                : "The search was stopped before it was known what could be removed to"
                                        + " serve more nets.")
                        + (withheld ? " Nothing is recorded." : "")
                        + " Allow more time with --within-ms.");
    }

    /** The result of matching the delays. */
    public static void printMatched(Design design, MatchedGroup matched, PrintWriter out) {
        out.println();
        out.printf(
                Locale.ROOT,
                "Greatest skew at the instrument, at one corner: %s before matching, %s "
                        + "after%s.%n",
                ns(matched.beforePs()),
                ns(matched.afterPs()),
                matched.reached()
                        ? ""
                        : ", more than the " + ns(matched.tolerancePs()) + " wanted");
        if (matched.isFinerThanKnown()) {
            out.println(finerThanKnown(matched));
        }
        for (MatchedGroup.Miss miss : matched.misses()) {
            out.println(
                    "Not matched: "
                            + miss.line().net().name()
                            + " on pad "
                            + Bus.padOf(design, miss.line()).name()
                            + (miss.proven()
                                    ? ": proven: no route with the required delay exists together with the others."
                                    : ": no route with the required delay was found, which proves nothing."));
        }
    }

    /** Says that a match within the tolerance cannot be relied on. */
    private static String finerThanKnown(MatchedGroup matched) {
        return "The tolerance of "
                + ns(matched.tolerancePs())
                + " is finer than what is known: local variation, package, board and leads make"
                + " the skew of two lines uncertain by up to ± "
                + ns(matched.uncertainPs())
                + ".";
    }

    private static String ns(int ps) {
        return String.format(Locale.ROOT, "%.3f ns", ps / 1000.0);
    }
}
