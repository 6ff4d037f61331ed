package padward.handover;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Optional;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import padward.base.Formulas;
import padward.change.LedgerLead;
import padward.design.board.Attachment;
import padward.timing.Arrival;
import padward.timing.InstrumentView;
import padward.timing.ValidTimes;
import padward.watch.circuit.Lateness;

/** A bench sheet as a table after RFC 4180: CRLF, quotes where needed, one channel a row. */
public final class SheetCsv {
    private static final List<String> COLUMNS =
            List.of(
                    "entry",
                    "channel",
                    "place",
                    "net",
                    "polarity",
                    "port",
                    "pad",
                    "packagePin",
                    "boardNet",
                    "setting",
                    "standard",
                    "millivolts",
                    "padFast_ps",
                    "padSlow_ps",
                    "instrumentFast_ps",
                    "instrumentSlow_ps",
                    "toDriverFast_ps",
                    "toDriverSlow_ps",
                    "chipFast_ps",
                    "chipSlow_ps",
                    "outside_ps",
                    "outsideTolerance_ps",
                    "toHighFast_ps",
                    "toHighSlow_ps",
                    "toLowFast_ps",
                    "toLowSlow_ps",
                    "measured_ps",
                    "measuredTolerance_ps",
                    "addToTime_ps",
                    "riseFast_ps",
                    "riseSlow_ps",
                    "sampleNeeded_MSps",
                    "lead",
                    "pod",
                    "colour",
                    "lead_m",
                    "lateCycles",
                    "lateClock",
                    "validFrom_ps",
                    "validTo_ps");

    private final boolean exact;

    private SheetCsv(boolean exact) {
        this.exact = exact;
    }

    /** The table's text, in which no spreadsheet finds a formula. */
    public static String of(BenchSheet sheet) {
        return new SheetCsv(false).text(sheet);
    }

    /** The table's text with every name as it is, for programs. */
    public static String exact(BenchSheet sheet) {
        return new SheetCsv(true).text(sheet);
    }

    private String guard(Object value) {
        return exact ? String.valueOf(value) : Formulas.guard(value);
    }

    private String text(BenchSheet sheet) {
        StringBuilder text = new StringBuilder();
        try (CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            out.printRecord(COLUMNS);
            for (BenchSheet.Page page : sheet.pages()) {
                for (BenchSheet.Line line : page.lines()) {
                    print(page, line, sheet, out);
                }
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException("nothing is written outside memory", impossible);
        }
        return text.toString();
    }

    private static String ps(Optional<Integer> ps) {
        return ps.map(String::valueOf).orElse("");
    }

    private void print(BenchSheet.Page page, BenchSheet.Line line, BenchSheet sheet, CSVPrinter out)
            throws IOException {
        Optional<ValidTimes.Window> valid = sheet.validTimeOf(line);
        InstrumentView seen = line.timing().seen();
        Arrival arrival = line.timing().chain().arrival();
        out.printRecord(
                page.number(),
                guard(line.channel()),
                guard(line.place().map(Attachment::toShortText).orElse("")),
                guard(line.net()),
                guard(line.polarity()),
                guard(line.port()),
                guard(line.pad()),
                guard(line.packagePin()),
                guard(line.boardNet()),
                guard(line.setting().map(s -> s.name()).orElse("")),
                guard(line.setting().map(s -> s.standard()).orElse("")),
                line.setting().map(s -> String.valueOf(s.millivolts())).orElse(""),
                line.atPin().fastPs(),
                line.atPin().slowPs(),
                line.atInstrument().fastPs(),
                line.atInstrument().slowPs(),
                line.timing().chain().toPad().fastPs(),
                line.timing().chain().toPad().slowPs(),
                arrival.chip().fastPs(),
                arrival.chip().slowPs(),
                arrival.outsidePs(),
                arrival.outsideTolerancePs(),
                ps(arrival.edges().map(e -> e.toHigh().fastPs())),
                ps(arrival.edges().map(e -> e.toHigh().slowPs())),
                ps(arrival.edges().map(e -> e.toLow().fastPs())),
                ps(arrival.edges().map(e -> e.toLow().slowPs())),
                line.lead().measured().map(m -> "" + m.ps()).orElse(""),
                line.lead().measured().map(m -> "" + m.tolerancePs()).orElse(""),
                line.addToTimePs(),
                seen.rise().slowPs() == 0 ? "" : seen.rise().fastPs(),
                seen.rise().slowPs() == 0 ? "" : seen.rise().slowPs(),
                seen.neededMsPerS() == 0 ? "" : Math.round(seen.neededMsPerS()),
                guard(line.lead().name()),
                guard(line.lead().pod()),
                guard(line.lead().colour()),
                LedgerLead.metresText(line.lead().metres().orElse(sheet.external().metres())),
                line.late().map(l -> "" + l.cycles()).orElse(""),
                guard(line.late().map(Lateness::clock).orElse("")),
                valid.map(w -> "" + w.fromPs()).orElse(""),
                valid.map(w -> "" + w.toPs()).orElse(""));
    }
}
