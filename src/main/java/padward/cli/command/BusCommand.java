package padward.cli.command;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.CancellationException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.ask.Price;
import padward.breakout.group.Bus;
import padward.breakout.group.CalibrationGroup;
import padward.breakout.group.ForwardedClock;
import padward.breakout.group.MatchedGroup;
import padward.breakout.group.RegisterQuestion;
import padward.breakout.group.RouteMatrix;
import padward.breakout.group.UnblockedGroup;
import padward.breakout.group.Unblocking;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.cli.form.GroupForm;
import padward.cli.option.AcceptOption;
import padward.cli.option.DesignOption;
import padward.cli.option.DriverOption;
import padward.cli.option.DryRunOption;
import padward.cli.option.GroupOption;
import padward.cli.option.LeadOption;
import padward.cli.option.SigningOption;
import padward.cli.output.BusTable;
import padward.cli.output.ExitStatus;
import padward.cli.output.RegisteredTable;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.format.form.JsonText;
import padward.format.ledger.LedgerReplay;
import padward.timing.ExternalLineDelay;
import padward.timing.ValidTimes;
import padward.watch.registered.RegisteredLines;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bus}: several nets at once. */
@Command(
        name = "bus",
        mixinStandardHelpOptions = true,
        description =
                "Brings several nets out at once: chooses among the given pads, those that cost"
                        + " nobody anything first, routes all nets together, and reports each line's"
                        + " delay at both corners and the skew between the lines.",
        footer = {
            "",
            "Example:",
            "  padward bus --design fixtures/small/only.design.json \\",
            "      --nets 'pump/level/sample[*]' --pads 'header J1'"
        })
public final class BusCommand implements Callable<Integer> {
    private static final double MOST_MHZ = 1_000_000;

    @Mixin private DesignOption design;
    @Mixin private GroupOption group;
    @Mixin private DriverOption driver;
    @Mixin private SigningOption signing;
    @Mixin private AcceptOption accept;
    @Mixin private DryRunOption dryRun;
    @Spec private CommandSpec spec;

    @Option(
            names = "--aim",
            description =
                    "What pads are chosen for: most (as many nets as can get out together, then the"
                            + " smallest sum of delays, proven), sum (of delays), worst (delay), skew;"
                            + " or order (nets in the order of the pads) (most).")
    private Bus.Aim aim;

    @Option(
            names = "--match-ps",
            paramLabel = "PS",
            description =
                    "Lengthens short routes until all signals arrive within this many picoseconds "
                            + "of one another at the instrument, at each corner.")
    private Integer match;

    @Option(
            names = "--register",
            paramLabel = "CLOCK",
            description =
                    "Also reports what it takes to sample the signals in the pads' IO registers "
                            + "with this clock net, one period later, whether setup and hold are met, "
                            + "and the skew that remains; with --ledger, places the registers. Where a "
                            + "pad has no such register, one in the fabric is taken; a net of another "
                            + "clock passes two, and comes out two periods later.")
    private String register;

    @Option(
            names = "--clock-mhz",
            paramLabel = "MHZ",
            defaultValue = "0",
            description =
                    "Frequency of the clock of --register or --clock-channel, MHz; 0: not known.")
    private double clockMhz;

    @Option(
            names = "--clock-channel",
            paramLabel = "NET",
            description =
                    "A clock among the nets: also reports when each other line is valid at the "
                            + "instrument relative to it, and when to take all.")
    private String clockChannel;

    @Option(
            names = "--calibrate",
            paramLabel = "NET",
            description =
                    "In place of --nets: brings this one net out on all the pads at once, so that"
                            + " one capture shows by how much their lines differ.")
    private String calibrate;

    @Option(
            names = "--unblock",
            description =
                    "When not all nets have a route, removes what blocks them; without it, that is "
                            + "only reported.")
    private boolean unblock;

    @Option(
            names = "--may-disconnect",
            description =
                    "Also takes pads that ports of the design have, where the others are not "
                            + "enough; those ports lose their pads. Without it, no port does.")
    private boolean mayDisconnect;

    @Option(
            names = "--within-ms",
            paramLabel = "MS",
            description =
                    "Stops the search after this many milliseconds and reports the nets that have a "
                            + "route so far, and how many can have one at the most. Without it, the "
                            + "search runs to the end. With --unblock, a search that was stopped "
                            + "records nothing. Not together with --match-ps or --register.")
    private Long withinMillis;

    @Mixin private LeadOption lead;

    @Option(
            names = {"-l", "--ledger"},
            paramLabel = "FILE",
            description = "Records the edits in this ledger, on top of the entries that it has.")
    private Path ledger;

    @Option(names = "--json", description = "Prints the answer as JSON.")
    private boolean json;

    private boolean allServed;

    @Override
    public Integer call() throws BadInput {
        ExternalLineDelay external = lead.read();
        Design read = design.readToAsk(Corner.SLOW);
        StringWriter report = new StringWriter();
        PrintWriter text = new PrintWriter(report);
        if (ledger == null) {
            answer(read, external, text);
        } else {
            dryRun.change(
                    ledger,
                    design.file(),
                    read.fabric(),
                    old -> {
                        Design now = LedgerReplay.applied(old, ledger, read);
                        Bus bus = answer(now, external, text);
                        return bus.lines().isEmpty() ? old : kept(old, now, bus);
                    });
        }
        if (ledger != null && !json) {
            text.print(dryRun.either("", "Not kept (--dry-run).\n"));
        }
        // Only now, with the file written, may it be reported as kept.
        text.flush();
        PrintWriter out = spec.commandLine().getOut();
        out.print(report);
        out.flush();
        return allServed ? ExitStatus.DONE : ExitStatus.NOT_OPEN;
    }

    private Bus answer(Design now, ExternalLineDelay external, PrintWriter out) throws BadInput {
        checkNets();
        if (match != null && match < 0) {
            throw new BadInput("--match-ps", "", "a number from 0", "" + match);
        }
        if (withinMillis != null && withinMillis < 0) {
            throw new BadInput("--within-ms", "", "a number from 0", "" + withinMillis);
        }
        // What these do is of use only when it is whole, so that no time is set for it.
        if (withinMillis != null && (match != null || register != null)) {
            throw new BadInput(
                    "--within-ms",
                    "",
                    "no --match-ps or --register together with it, as these run to their end",
                    match != null ? "--match-ps " + match : "--register " + register);
        }
        Progress progress =
                withinMillis == null ? design.progress() : design.progress().within(withinMillis);
        Optional<RouteMatrix> matrix =
                calibrate == null ? Optional.of(matrix(now)) : Optional.empty();
        Bus found = matrix.isPresent() ? matrix.get().routeOrSoFar(progress) : calibration(now);
        Unblocking unblocking = unblocking(now, found, progress);
        Optional<UnblockedGroup> unblocked = unblocking.found();
        Bus bus = unblock ? unblocked.map(UnblockedGroup::bus).orElse(found) : found;
        Optional<MatchedGroup> matched =
                match == null
                        ? Optional.empty()
                        : Optional.of(
                                MatchedGroup.of(
                                        now,
                                        bus,
                                        match,
                                        external,
                                        lead.localPercent(),
                                        design.progress()));
        Optional<RegisteredLines> registered = registered(now, bus, external);
        boolean places = register != null && ledger != null;
        Optional<ValidTimes> valid =
                validTimes(now, matched.map(MatchedGroup::after).orElse(bus), external);
        Bus routed = matched.map(MatchedGroup::after).orElse(bus);
        // A group without the unblocking that was asked for is shown, but not recorded.
        boolean withheld = ledger != null && unblock && unblocking.stopped();
        Bus unregistered = withheld ? nothing(bus) : routed;
        Bus recorded =
                places
                        ? registered.flatMap(RegisteredLines::placed).orElse(nothing(bus))
                        : unregistered;
        allServed =
                places
                        ? notServed(bus, registered).isEmpty() && !recorded.lines().isEmpty()
                        : recorded.left().isEmpty();
        Optional<String> distance =
                unblock || found.isStopped()
                        ? Optional.empty()
                        : matrix.flatMap(m -> distance(m, routed, progress));
        if (json) {
            out.println(
                    JsonText.pretty(
                            GroupForm.form(),
                            new GroupForm.Group(
                                    now,
                                    routed,
                                    recorded,
                                    unblocking,
                                    unblock,
                                    matched,
                                    registered,
                                    valid,
                                    distance,
                                    external,
                                    lead.localPercent())));
        } else if (places) {
            notServed(bus, registered).forEach(text -> out.println("Not served: " + text + "."));
            boolean placed = !recorded.lines().isEmpty();
            registered.ifPresent(h -> RegisteredTable.print(now, h, clockMhz, placed, out));
            if (placed) {
                out.println();
                new BusTable(now, recorded, external, lead.localPercent(), recorded.price(now))
                        .printEdits(out);
            }
        } else {
            new BusTable(now, routed, external, lead.localPercent(), price(now, routed, unblocked))
                    .print(out, progress);
            distance.ifPresent(out::println);
            unblocked.ifPresent(c -> BusTable.printUnblocked(now, c, unblock, out));
            if (unblocking.stopped()) {
                BusTable.printUnblockingStopped(unblock, withheld, out);
            }
            registered.ifPresent(h -> RegisteredTable.print(now, h, clockMhz, false, out));
            valid.ifPresent(v -> BusTable.printValid(v, out));
            matched.ifPresent(m -> BusTable.printMatched(now, m, out));
        }
        return recorded;
    }

    /** How far the group is from the best; empty where that is not known in time. */
    private Optional<String> distance(RouteMatrix matrix, Bus routed, Progress progress) {
        try {
            return matrix.distanceToBest(routed, match != null, progress);
        } catch (CancellationException stopped) {
            return Optional.empty();
        }
    }

    private Optional<RegisteredLines> registered(Design now, Bus bus, ExternalLineDelay external)
            throws BadInput {
        if (!(clockMhz >= 0 && clockMhz <= MOST_MHZ)) {
            throw new BadInput("--clock-mhz", "", "a number from 0 to 1000000", "" + clockMhz);
        }
        if (register == null) {
            return Optional.empty();
        }
        if (clockChannel != null) {
            throw new BadInput(
                    "--clock-channel",
                    "",
                    "no --register together with it; sheet --clock-channel shows registered lines",
                    "--register " + register);
        }
        if (match != null && ledger != null) {
            throw new BadInput(
                    "--register",
                    "",
                    "no --match-ps together with it and --ledger, as registered lines are not"
                            + " rerouted",
                    "--match-ps " + match);
        }
        return Optional.of(
                RegisteredLines.of(
                        new RegisterQuestion(
                                now,
                                bus,
                                DesignOption.net("--register", now, register),
                                clockMhz,
                                external,
                                lead.localPercent()),
                        group.pads(now),
                        ports(),
                        design.progress()));
    }

    private Optional<ValidTimes> validTimes(Design now, Bus bus, ExternalLineDelay external)
            throws BadInput {
        double localPercent = lead.localPercent();
        if (clockChannel == null) {
            return Optional.empty();
        }
        Net clock = DesignOption.net("--clock-channel", now, clockChannel);
        Optional<Bus.Line> line =
                bus.lines().stream().filter(l -> l.net().id() == clock.id()).findFirst();
        // Why it is not served is reported with the others.
        if (line.isEmpty() && bus.left().stream().noneMatch(l -> l.net().id() == clock.id())) {
            throw new BadInput(
                    "--clock-channel", "", "a net of the group", "“" + clock.name() + "”");
        }
        return line.map(
                l ->
                        bus.validTimes(
                                now, l, clockMhz > 0 ? 1e6 / clockMhz : 0, external, localPercent));
    }

    /** What is not served, apart from a clock that a register before a pad shows. */
    private static List<String> notServed(Bus bus, Optional<RegisteredLines> registered) {
        Optional<Net> clock =
                registered
                        .flatMap(RegisteredLines::forwarded)
                        .flatMap(ForwardedClock.Result::found)
                        .map(ForwardedClock::clock);
        List<Bus.Left> left =
                bus.left().stream()
                        .filter(l -> clock.isEmpty() || l.net().id() != clock.get().id())
                        .toList();
        return new Bus(bus.lines(), left, List.of(), 0, Optional.empty()).notServed();
    }

    /** The group when its registers cannot be placed: nothing is recorded. */
    private static Bus nothing(Bus bus) {
        return new Bus(List.of(), bus.left(), List.of(), 0, Optional.empty());
    }

    private RouteMatrix matrix(Design now) throws BadInput {
        return RouteMatrix.unsearched(
                now, group.nets(now), group.pads(now), aim(), ports(), driver.of(now));
    }

    private Bus calibration(Design now) throws BadInput {
        return CalibrationGroup.of(
                now,
                DesignOption.net("--calibrate", now, calibrate),
                group.pads(now),
                ports(),
                driver.of(now),
                design.progress());
    }

    /** One way of naming nets, and nothing that a calibration has no use for. */
    private void checkNets() throws BadInput {
        if (calibrate == null && group.netsText().isEmpty()) {
            throw new BadInput("--nets", "", "the name of a net, or a pattern", "none");
        }
        if (calibrate != null
                && (!group.netsText().isEmpty()
                        || match != null
                        || register != null
                        || aim != null
                        || withinMillis != null
                        || unblock)) {
            throw new BadInput(
                    "--calibrate",
                    "",
                    "no --nets, --aim, --match-ps, --register, --unblock or --within-ms together"
                            + " with it",
                    "one of them");
        }
    }

    private Price price(Design now, Bus routed, Optional<UnblockedGroup> unblocked) {
        return unblock && unblocked.isPresent() ? unblocked.get().price(now) : routed.price(now);
    }

    private Bus.Aim aim() {
        return aim == null ? Bus.Aim.MOST : aim;
    }

    private Bus.Ports ports() {
        return mayDisconnect ? Bus.Ports.MAY_DISCONNECT : Bus.Ports.KEEP;
    }

    /** What to remove so that nets without a free route are served too. */
    private Unblocking unblocking(Design now, Bus found, Progress progress) throws BadInput {
        return calibrate == null
                ? Unblocking.of(
                        now,
                        found,
                        group.nets(now),
                        group.pads(now),
                        aim(),
                        ports(),
                        driver.of(now),
                        progress)
                : Unblocking.NONE;
    }

    private Ledger kept(Ledger old, Design now, Bus bus) throws BadInput {
        List<String> accepted = accept.checked(bus.price(now));
        LedgerEntry entry =
                signing.entry(
                        now,
                        calibrate == null ? group.netsText() : calibrate,
                        group.padsText(),
                        bus.edits(),
                        calibrate == null
                                ? "a group of " + bus.lines().size()
                                : "a calibration of " + bus.lines().size() + " lines");
        LedgerEntry numbered =
                LedgerLead.numbered(old.entries(), entry.accepting(accepted), lead.statedMetres());
        return old.with(numbered);
    }
}
