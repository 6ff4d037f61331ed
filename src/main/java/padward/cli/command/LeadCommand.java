package padward.cli.command;

import java.io.PrintWriter;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import padward.base.BadInput;
import padward.change.Lead;
import padward.change.Ledger;
import padward.change.LedgerEntry;
import padward.cli.form.JsonText;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.DryRunOption;
import padward.cli.option.LedgerOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.format.ledger.LedgerReplay;
import padward.format.source.FileLimits;
import padward.format.source.Nearest;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code lead}: which lead of the instrument is on which line. */
@Command(
        name = "lead",
        mixinStandardHelpOptions = true,
        description =
                "Records in a ledger which lead of the instrument is on a line: its channel, name,"
                        + " pod and colour. Without --port, lists all leads. A channel stays the same"
                        + " when other entries are undone.",
        footer = {
            "",
            "Example:",
            "  padward lead --design fixtures/small/only.design.json --ledger bench.json \\",
            "      --port out_J2.1 --name 'clip 3' --pod A --colour red"
        })
public final class LeadCommand implements Callable<Integer> {
    private static final int LONGEST = 100;

    @Mixin private DesignOption design;
    @Mixin private LedgerOption ledger;
    @Mixin private DryRunOption dryRun;
    @Spec private CommandSpec spec;

    @Option(
            names = "--port",
            paramLabel = "PORT",
            description = "The port that brings the line out, as keep named it.")
    private String port;

    @Option(names = "--channel", paramLabel = "N", description = "The instrument's channel.")
    private Integer channel;

    @Option(names = "--name", paramLabel = "NAME", description = "The lead's own name.")
    private String name;

    @Option(names = "--pod", paramLabel = "POD", description = "What bundles it with others.")
    private String pod;

    @Option(names = "--colour", paramLabel = "COLOUR", description = "Its colour.")
    private String colour;

    @Option(
            names = "--measured-ps",
            paramLabel = "PS",
            description =
                    "Measured delay of the line, from any point in time that the lines measured"
                            + " with it share; deskew then prefers it.")
    private Integer measured;

    @Option(
            names = "--tolerance-ps",
            paramLabel = "PS",
            description =
                    "How far the measured delay can be off, either way (0). Without --measured-ps, "
                            + "that of the delay that was measured before.")
    private Integer tolerance;

    @Option(names = "--json", description = "Prints the leads as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        Design read = design.read();
        Ledger now =
                port == null
                        ? ledger.readToList(read, design.file(), spec.commandLine().getErr())
                        : dryRun.change(
                                ledger.file(),
                                design.file(),
                                read.fabric(),
                                old -> {
                                    LedgerReplay.applied(old, ledger.file(), read);
                                    return changed(old);
                                });
        PrintWriter out = spec.commandLine().getOut();
        List<List<Lead>> leads = Lead.all(now.entries());
        if (json) {
            Reports.Leads report = new Reports.Leads(ledger.file().toString(), leads);
            out.println(JsonText.pretty(Reports.Leads.form(), report));
            out.flush();
            return ExitStatus.DONE;
        }
        TextTable table = new TextTable("entry", "port", "channel", "lead", "measured");
        for (int i = 0; i < leads.size(); i++) {
            for (Lead lead : leads.get(i)) {
                table.row(
                        "" + (i + 1),
                        lead.port(),
                        "" + lead.channel(),
                        lead.toText(),
                        measured(lead));
            }
        }
        if (port != null) {
            out.print(dryRun.either("", "Not recorded (--dry-run); the leads would be:\n"));
        }
        table.print(out);
        out.flush();
        return ExitStatus.DONE;
    }

    private Ledger changed(Ledger old) throws BadInput {
        check("--measured-ps", -FileLimits.MEASURED_PS, measured == null ? 0 : measured);
        check("--tolerance-ps", 0, tolerance == null ? 0 : tolerance);
        if (channel != null && (channel < 1 || channel > FileLimits.CHANNELS)) {
            String expected = "a number from 1 to " + FileLimits.CHANNELS;
            throw new BadInput("--channel", "", expected, "" + channel);
        }
        List<List<Lead>> all = Lead.all(old.entries());
        List<LedgerEntry> entries = new ArrayList<>();
        boolean found = false;
        for (int i = 0; i < all.size(); i++) {
            List<Lead> leads = new ArrayList<>();
            for (Lead lead : all.get(i)) {
                boolean wanted = lead.port().equals(port);
                found |= wanted;
                boolean clash = !wanted && channel != null && lead.channel() == channel;
                if (clash) {
                    throw new BadInput(
                            "--channel", "", "a channel of no other line", lead.port() + "'s");
                }
                leads.add(wanted ? changed(lead) : lead);
            }
            entries.add(old.entries().get(i).withLeads(leads));
        }
        if (!found) {
            List<String> ports =
                    all.stream().flatMap(List::stream).map(Lead::port).collect(Collectors.toList());
            throw new BadInput(
                    "--port",
                    "",
                    "a port that the ledger brings out",
                    Nearest.describe(port, ports.stream()));
        }
        return old.withEntries(entries);
    }

    private static String measured(Lead lead) {
        return lead.measured().map(m -> m.ps() + " ± " + m.tolerancePs() + " ps").orElse("");
    }

    private static void check(String option, int least, int value) throws BadInput {
        if (value < least || value > FileLimits.MEASURED_PS) {
            String expected = "a number from " + least + " to " + FileLimits.MEASURED_PS;
            throw new BadInput(option, "", expected, "" + value);
        }
    }

    private Optional<Lead.Measured> measuredNow(Lead old) throws BadInput {
        if (measured != null) {
            return Optional.of(new Lead.Measured(measured, tolerance == null ? 0 : tolerance));
        }
        if (tolerance != null && old.measured().isEmpty()) {
            throw new BadInput(
                    "--tolerance-ps",
                    "",
                    "--measured-ps together with it, because the line has no measured delay yet",
                    "none");
        }
        return old.measured()
                .map(m -> tolerance == null ? m : new Lead.Measured(m.ps(), tolerance));
    }

    private Lead changed(Lead old) throws BadInput {
        return new Lead(
                old.port(),
                channel == null ? old.channel() : channel,
                name == null ? old.name() : line(name),
                pod == null ? old.pod() : line(pod),
                colour == null ? old.colour() : line(colour),
                measuredNow(old));
    }

    /** A text that can be read as a name, so that the ledger can be read again. */
    private static String line(String text) {
        String plain = text.replaceAll("\\p{Cntrl}", " ");
        return plain.substring(0, Math.min(plain.length(), LONGEST));
    }
}
