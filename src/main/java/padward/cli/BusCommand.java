package padward.cli;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.Progress;
import padward.breakout.Bus;
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
            "Brings several nets out at once, on pads of its choice among those given, over ways that",
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
        Bus bus = Bus.of(now, group.nets(now), group.pads(now), aim, Progress.NONE);
        PrintWriter out = spec.commandLine().getOut();
        if (json) {
            out.println(AnswerJson.text(BusJson.object(now, bus, outside)));
        } else {
            new BusTable(now, bus, outside).print(out);
        }
        return bus;
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
