package padward.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.Bus;
import padward.breakout.Cleared;
import padward.breakout.Held;
import padward.breakout.Matched;
import padward.clearance.SearchLimits;
import padward.design.Design;
import padward.design.Ledger;
import padward.design.LedgerEntry;
import padward.format.LedgerFile;
import padward.timing.Outside;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code bus}: several nets at once. */
@Command(
        name = "bus",
        mixinStandardHelpOptions = true,
        description = {
            "Brings several nets out at once, on pads of its choice among those given, over ways"
                    + " that",
            "do not meet. Tells each line's delay at both corners and the skew between them."
        },
        footer = {
            "",
            "Example:",
            "  padward bus --design fixtures/small/only.design.json \\",
            "      --nets 'pump/level/sample[*]' --pads 'header J1'"
        })
final class BusCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private GroupOption group;
    @Mixin private SigningOption signing;
    @Spec private CommandSpec spec;

    @Option(
            names = "--aim",
            defaultValue = "sum",
            description =
                    "What the choice of pads goes by: sum, worst, skew, or order"
                            + " (${DEFAULT-VALUE}).")
    private Bus.Aim aim;

    @Option(
            names = "--match-ps",
            paramLabel = "PS",
            description =
                    "Lengthens quick ways by detours until all arrive, at each corner, within so"
                            + " many picoseconds of one another at the instrument.")
    private Integer match;

    @Option(
            names = "--hold",
            paramLabel = "CLOCK",
            description =
                    "Also tells what it takes to hold the signals in the pads' IO registers with"
                            + " that clock net, one period later, and the skew that is left then.")
    private String hold;

    @Option(
            names = "--clear",
            description =
                    "When not all nets fit, frees what stands in the way; without it, that is only"
                            + " told.")
    private boolean clear;

    @Mixin private LeadOption lead;

    @Option(
            names = {"-l", "--ledger"},
            paramLabel = "FILE",
            description = "Keeps what is served in a ledger, and asks on what it holds already.")
    private Path ledger;

    @Option(names = "--json", description = "Prints the answer as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Outside outside = lead.read();
        Design read = design.read();
        boolean[] all = {false};
        if (ledger == null) {
            all[0] = answer(read, outside).left().isEmpty();
        } else {
            LedgerFile.change(
                    ledger,
                    design.file(),
                    read.fabric(),
                    old -> {
                        Design now = LedgerTable.apply(old, read, ledger);
                        Bus bus = answer(now, outside);
                        all[0] = bus.left().isEmpty();
                        return bus.lines().isEmpty() ? old : kept(old, now, bus);
                    });
        }
        spec.commandLine().getOut().flush();
        return all[0] ? Padward.DONE : Padward.NOT_OPEN;
    }

    private Bus answer(Design now, Outside outside) throws BadInput {
        if (match != null && match < 0) {
            throw new BadInput("--match-ps", "", "a number from 0", "" + match);
        }
        Bus found = Bus.of(now, group.nets(now), group.pads(now), aim, Progress.NONE);
        Optional<Cleared> cleared = cleared(now, found);
        Bus bus = clear ? cleared.map(Cleared::bus).orElse(found) : found;
        Optional<Matched> matched =
                match == null
                        ? Optional.empty()
                        : Optional.of(Matched.of(now, bus, match, outside, Progress.NONE));
        Optional<Held> held =
                hold == null
                        ? Optional.empty()
                        : Optional.of(
                                Held.of(
                                        now,
                                        bus,
                                        DesignOption.net("--hold", now, hold),
                                        outside,
                                        Progress.NONE));
        Bus laid = matched.map(Matched::after).orElse(bus);
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(
                    AnswerJson.text(BusJson.object(now, laid, cleared, matched, held, outside)));
        } else {
            new BusTable(now, laid, outside).print(out);
            cleared.ifPresent(c -> BusTable.printCleared(c, clear, out));
            held.ifPresent(h -> HeldTable.print(now, h, out));
            matched.ifPresent(m -> BusTable.printMatched(now, m, out));
        }
        return laid;
    }

    /** What to free so that those are served too that are left for want of free ways. */
    private Optional<Cleared> cleared(Design now, Bus found) throws BadInput {
        if (found.left().stream().noneMatch(Bus.Left::couldBeCleared)) {
            return Optional.empty();
        }
        return Optional.of(
                Cleared.of(
                        now,
                        group.nets(now),
                        group.pads(now),
                        aim,
                        SearchLimits.USUAL,
                        Progress.NONE));
    }

    private Ledger kept(Ledger old, Design now, Bus bus) throws BadInput {
        LedgerEntry entry =
                signing.entry(
                        now,
                        group.netsText(),
                        group.padsText(),
                        bus.edits(),
                        "a group of " + bus.lines().size());
        return old.with(entry);
    }
}
