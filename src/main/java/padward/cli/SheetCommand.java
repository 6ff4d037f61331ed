package padward.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.concurrent.Callable;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.base.BadInput;
import padward.breakout.BenchSheet;
import padward.design.Attachment;
import padward.design.Design;
import padward.design.Ledger;
import padward.format.WholeFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

/** {@code sheet}: the page for the bench. */
@Command(
        name = "sheet",
        mixinStandardHelpOptions = true,
        description = {
            "Writes what is taken to the bench: where each signal that a ledger brings out is to be",
            "found, how late it is there, how to correct for it, and the cautions. The file's name",
            "tells the form: .html (one page, printable), .csv, or .sdf (delays for simulation)."
        },
        footer = {
            "",
            "Example:",
            "  padward sheet --design fixtures/small/only.design.json --ledger bench.json \\",
            "      -o bench.html"
        })
final class SheetCommand implements Callable<Integer> {
    @Mixin private DesignOption design;
    @Spec private CommandSpec spec;

    @Mixin private LedgerOption ledger;
    @Mixin private OutputOption output;
    @Mixin private LeadOption lead;

    @Override
    public Integer call() throws BadInput {
        Path target = output.checked(design, ledger);
        String name = output.lowerName();
        Design read = design.read();
        Ledger kept = ledger.read(read);
        Design after = LedgerTable.apply(kept, read, ledger.file());
        BenchSheet sheet = BenchSheet.of(read, kept, after, lead.read());
        String text;
        if (name.endsWith(".html")) {
            text = SheetHtml.of(sheet, after, LocalDate.now().toString());
        } else if (name.endsWith(".csv")) {
            text = csv(sheet);
        } else if (name.endsWith(".sdf")) {
            text = SheetSdf.of(sheet, after);
        } else {
            throw new BadInput(
                    "-o", "", "a name that ends in .html, .csv or .sdf", target.toString());
        }
        WholeFile.writeText(target, text);
        PrintWriter out = spec.commandLine().getOut();
        int count = sheet.lines().size();
        out.println("Written: " + target + ", " + count + (count == 1 ? " signal" : " signals"));
        out.flush();
        return Padward.DONE;
    }

    /** By RFC 4180: CRLF, quotes where needed. */
    private static String csv(BenchSheet sheet) throws BadInput {
        StringBuilder text = new StringBuilder();
        try (CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            out.printRecord(
                    "place",
                    "net",
                    "port",
                    "pad",
                    "packagePin",
                    "setting",
                    "millivolts",
                    "padFast_ps",
                    "padSlow_ps",
                    "instrumentFast_ps",
                    "instrumentSlow_ps",
                    "correction_ps");
            for (BenchSheet.Line line : sheet.lines()) {
                out.printRecord(
                        line.place().map(Attachment::toShortText).orElse(""),
                        line.net(),
                        line.port(),
                        line.pad(),
                        line.packagePin(),
                        line.setting().map(s -> s.name()).orElse(""),
                        line.setting().map(s -> String.valueOf(s.millivolts())).orElse(""),
                        line.atPad().fastPs(),
                        line.atPad().slowPs(),
                        line.atInstrument().fastPs(),
                        line.atInstrument().slowPs(),
                        line.correctionPs());
            }
        } catch (IOException impossible) {
            throw new BadInput("-o", "", "room in memory", "" + impossible.getMessage());
        }
        return text.toString();
    }
}
