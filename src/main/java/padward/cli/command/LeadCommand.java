package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.change.Ledger;
import padward.change.LedgerLead;
import padward.cli.form.Reports;
import padward.cli.option.DesignOption;
import padward.cli.option.DryRunOption;
import padward.cli.option.LedgerOption;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.design.Design;
import padward.format.form.JsonText;
import padward.format.ledger.LeadChange;
import padward.format.ledger.LeadField;
import padward.format.ledger.LedgerReplay;
import padward.handover.BenchSheet;
import padward.handover.Calibration;
import padward.timing.ExternalLineDelay;
import padward.timing.Instrument;
import padward.timing.PairSkew;
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
                        + " pod, colour and length. Without --port, lists all leads. A channel stays the same"
                        + " when other entries are undone.",
        footer = {
            "",
            "Example:",
            "  padward lead --design fixtures/small/only.design.json --ledger bench.json \\",
            "      --port out_J2.1 --name 'clip 3' --pod A --colour red"
        })
public final class LeadCommand implements Callable<Integer> {
    private static final double MOST_MHZ = 1_000_000;

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
    private String channel;

    @Option(names = "--name", paramLabel = "NAME", description = "The lead's own name.")
    private String name;

    @Option(names = "--pod", paramLabel = "POD", description = "What bundles it with others.")
    private String pod;

    @Option(names = "--colour", paramLabel = "COLOUR", description = "Its colour.")
    private String colour;

    @Option(
            names = "--length-m",
            paramLabel = "METRES",
            description =
                    "Its length; sheet then calculates with it, whatever --lead-m says. An empty"
                            + " text removes it.")
    private String length;

    @Option(
            names = "--measured-ps",
            paramLabel = "PS",
            description =
                    "Measured delay of the line, from any point in time that the lines measured"
                            + " with it share, without the cycles by which a watch circuit is late;"
                            + " deskew then prefers it.")
    private String measured;

    @Option(
            names = "--tolerance-ps",
            paramLabel = "PS",
            description =
                    "How far the measured delay can be off, either way (0). Without --measured-ps, "
                            + "that of the delay that was measured before.")
    private String tolerance;

    @Option(
            names = "--capture",
            paramLabel = "CAPTURE",
            description =
                    "A capture, .vcd or .csv, of a calibration in the ledger (bus --calibrate): all"
                            + " lines on its pads get the measured delays that the capture shows."
                            + " Its channels are called as deskew expects them.")
    private Path capture;

    @Option(
            names = "--sample-mhz",
            paramLabel = "MHZ",
            defaultValue = "0",
            description =
                    "Sample rate of the instrument that took the capture, MS/s; 0: ignore sampling"
                            + " (${DEFAULT-VALUE}).")
    private double sampleMhz;

    @Option(names = "--json", description = "Prints the leads as JSON.")
    private boolean json;

    @Override
    public Integer call() throws BadInput {
        checkCapture();
        ledger.checkIsThere();
        Design read = design.read();
        Ledger now =
                port == null && capture == null
                        ? ledger.readToList(read, design.file(), spec.commandLine().getErr())
                        : dryRun.change(
                                ledger.file(),
                                design.file(),
                                read.fabric(),
                                old -> {
                                    Design after = LedgerReplay.applied(old, ledger.file(), read);
                                    return capture == null
                                            ? changed(old)
                                            : calibrated(old, read, after);
                                });
        PrintWriter out = spec.commandLine().getOut();
        List<List<LedgerLead>> leads = LedgerLead.all(now.entries());
        if (json) {
            Reports.Leads report = new Reports.Leads(ledger.file().toString(), leads);
            out.println(JsonText.pretty(Reports.Leads.form(), report));
            out.flush();
            return ExitStatus.DONE;
        }
        TextTable table = new TextTable("entry", "port", "channel", "lead", "measured");
        for (int i = 0; i < leads.size(); i++) {
            for (LedgerLead lead : leads.get(i)) {
                table.row(
                        "" + (i + 1),
                        lead.port(),
                        "" + lead.channel(),
                        lead.toText(),
                        measured(lead));
            }
        }
        if (port != null || capture != null) {
            out.print(dryRun.either("", "Not recorded (--dry-run); the leads would be:\n"));
        }
        table.print(out);
        out.flush();
        return ExitStatus.DONE;
    }

    private Ledger changed(Ledger old) throws BadInput {
        Map<LeadField, String> values = new EnumMap<>(LeadField.class);
        put(values, LeadField.CHANNEL, channel);
        put(values, LeadField.NAME, name);
        put(values, LeadField.POD, pod);
        put(values, LeadField.COLOUR, colour);
        put(values, LeadField.LENGTH, length);
        put(values, LeadField.MEASURED, measured);
        put(values, LeadField.TOLERANCE, tolerance);
        return old.withEntries(new LeadChange(port, values).to(old.entries(), "--"));
    }

    private void checkCapture() throws BadInput {
        if (!(sampleMhz >= 0 && sampleMhz <= MOST_MHZ)) {
            throw new BadInput("--sample-mhz", "", "a number from 0 to 1000000", "" + sampleMhz);
        }
        if (capture != null && port != null) {
            throw new BadInput("--capture", "", "no --port together with it", port);
        }
        if (capture == null && sampleMhz > 0) {
            throw new BadInput("--sample-mhz", "", "--capture together with it", "none");
        }
    }

    private Ledger calibrated(Ledger old, Design read, Design after) throws BadInput {
        BenchSheet sheet =
                BenchSheet.of(read, old, after, ExternalLineDelay.USUAL, Instrument.UNKNOWN);
        Calibration found =
                Calibration.read(capture, sheet, Instrument.samplePs(sampleMhz), design.progress());
        return old.withEntries(found.to(old.entries(), sheet, PairSkew.USUAL_LOCAL_PERCENT));
    }

    private static void put(Map<LeadField, String> values, LeadField field, String text) {
        if (text != null) {
            values.put(field, text);
        }
    }

    private static String measured(LedgerLead lead) {
        return lead.measured().map(m -> m.ps() + " ± " + m.tolerancePs() + " ps").orElse("");
    }
}
