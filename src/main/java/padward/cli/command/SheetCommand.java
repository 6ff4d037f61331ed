package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.base.WholeFile;
import padward.change.Ledger;
import padward.cli.option.DesignOption;
import padward.cli.option.InstrumentOption;
import padward.cli.option.LeadOption;
import padward.cli.option.LedgerOption;
import padward.cli.option.OutputOption;
import padward.cli.output.ExitStatus;
import padward.design.Design;
import padward.filework.SheetLines;
import padward.format.ledger.LedgerReplay;
import padward.handover.BenchSheet;
import padward.handover.SdfText;
import padward.handover.SheetCsv;
import padward.handover.SheetPage;
import padward.handover.SheetPdf;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** {@code sheet}: the page for the bench. */
@Command(
        name = "sheet",
        mixinStandardHelpOptions = true,
        description =
                "Writes the bench sheet: where each signal that a ledger brings out is found, "
                        + "its delay there, what to add to its time stamps, and the cautions; one page "
                        + "for each breakout or group. The file's name selects the format: .html "
                        + "(printable, needs no other file), .pdf, .csv, or .sdf (delays for simulation).",
        footer = {
            "",
            "Example:",
            "  padward sheet --design fixtures/small/only.design.json --ledger bench.json \\",
            "      -o bench.pdf --lead-m 0.3"
        })
public final class SheetCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Mixin private LedgerOption ledger;
    @Mixin private OutputOption output;
    @Mixin private LeadOption lead;
    @Mixin private InstrumentOption instrument;
    @Spec private CommandSpec spec;

    @Option(
            names = "--paper",
            defaultValue = "a4",
            description = "Paper size, a4 or letter (${DEFAULT-VALUE}).")
    private SheetPage.Paper paper;

    @Option(
            names = "--calibration",
            paramLabel = "FILE",
            description =
                    "The sheet of a calibration (bus --calibrate) as .csv, with what was measured in"
                            + " its column measured_ps: the lines on the same pads get measured"
                            + " delays.")
    private Path calibration;

    @Option(
            names = "--clock-channel",
            paramLabel = "CHANNEL",
            description =
                    "The channel that shows the clock, by its number or net: the sheet then says when "
                            + "each other channel is valid relative to it, and when to take all. "
                            + "--clock-mhz states its frequency.")
    private String clockChannel;

    @Option(
            names = "--exact-names",
            description =
                    "In .csv, leaves every name as it is. Without it, one that a spreadsheet would take"
                            + " for a formula gets an apostrophe in front.")
    private boolean exactNames;

    @Override
    public Integer call() throws BadInput {
        Path target = output.checked(design, ledger);
        String form = form();
        Design read = design.read();
        Ledger kept = ledger.read(read);
        LedgerReplay.checkFile(kept, ledger.file(), design.file());
        Design after = LedgerReplay.eachApplied(kept, ledger.file(), read);
        BenchSheet sheet =
                withValidTimes(
                        calibrated(
                                BenchSheet.of(read, kept, after, lead.read(), instrument.read())),
                        after);
        String made = LocalDate.now().toString();
        switch (form) {
            case "html" -> WholeFile.writeText(target, SheetPage.html(sheet, after, made, paper));
            case "pdf" ->
                    WholeFile.write(target, out -> SheetPdf.write(sheet, after, made, paper, out));
            case "csv" ->
                    WholeFile.writeText(
                            target, exactNames ? SheetCsv.exact(sheet) : SheetCsv.of(sheet));
            default -> WholeFile.writeText(target, SdfText.of(sheet, after));
        }
        PrintWriter out = spec.commandLine().getOut();
        int count = sheet.lines().size();
        out.println("Written: " + target + ", " + count + (count == 1 ? " signal" : " signals"));
        sheet.missing().forEach(out::println);
        out.flush();
        return ExitStatus.DONE;
    }

    private BenchSheet withValidTimes(BenchSheet sheet, Design after) throws BadInput {
        if (clockChannel == null) {
            return sheet;
        }
        List<BenchSheet.Line> found =
                sheet.lines().stream()
                        .filter(
                                l ->
                                        l.net().equals(clockChannel)
                                                || clockChannel.equals("" + l.channel()))
                        .toList();
        if (found.size() != 1) {
            throw new BadInput(
                    "--clock-channel",
                    "",
                    "the number or net of one channel of the sheet",
                    "“" + clockChannel + "”, " + (found.isEmpty() ? "none" : "several"));
        }
        double mhz = instrument.read().clockMhz();
        return sheet.withValidTimes(
                found.get(0), after, mhz > 0 ? 1e6 / mhz : 0, lead.localPercent());
    }

    private BenchSheet calibrated(BenchSheet sheet) throws BadInput {
        if (calibration == null) {
            return sheet;
        }
        SheetLines measured = SheetLines.read(calibration);
        if (!measured.hasMeasured()) {
            String expected = "a measured delay in column measured_ps";
            throw new BadInput(calibration.toString(), "", expected, "none");
        }
        double localPercent = lead.localPercent();
        return sheet.measured(
                l ->
                        measured.measuredOn(
                                l.pad(),
                                l.timing().chain().toPad(),
                                l.atInstrument(),
                                localPercent));
    }

    private String form() throws BadInput {
        for (String form : new String[] {"html", "pdf", "csv", "sdf"}) {
            if (output.lowerName().endsWith("." + form)) {
                return form;
            }
        }
        throw new BadInput(
                "-o",
                "",
                "a name that ends in .html, .pdf, .csv or .sdf",
                output.file().toString());
    }
}
