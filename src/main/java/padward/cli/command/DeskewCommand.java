package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.capture.Deskew;
import padward.capture.Deskewed;
import padward.cli.manners.ConsoleProgress;
import padward.cli.option.Outputs;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.filework.SheetDeskew;
import padward.filework.SheetLines;
import padward.format.source.FileLimits;
import padward.timing.Instrument;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code deskew}: a capture shifted by its channels' delays. */
@Command(
        name = "deskew",
        mixinStandardHelpOptions = true,
        description =
                "Deskews a capture: shifts each channel by its line's delay, so that all changes "
                        + "are stamped as they left the nets' drivers, later by one amount, and marks the spans in which the "
                        + "order of changes on different channels is uncertain. Reads and writes VCD "
                        + "(IEEE 1364) or CSV (RFC 4180).",
        footer = {
            "",
            "Exit status: 0 written; 1 written, but no channel is on the sheet; 2 bad input.",
            "",
            "Example:",
            "  padward deskew capture.vcd --sheet bench.csv --sample-mhz 500 -o deskewed.vcd"
        })
public final class DeskewCommand implements Callable<Integer> {
    @Spec private CommandSpec spec;

    @Parameters(paramLabel = "CAPTURE", description = "The capture: .vcd or .csv.")
    private Path capture;

    @Option(
            names = {"-s", "--sheet"},
            required = true,
            paramLabel = "FILE",
            description =
                    "The bench sheet as .csv. A channel is matched to a line by the line's place, "
                            + "net, port, pad, package pin, lead or channel (3, ch3). Measured delays are preferred. Another table also works if it "
                            + "has one of these columns and the columns instrumentFast_ps and "
                            + "instrumentSlow_ps.")
    private Path sheet;

    @Option(
            names = "--channel",
            paramLabel = "NAME=LINE",
            description =
                    "Assigns a line of the sheet to a channel, by one of the names of the line, or by the board's "
                            + "net on its pad. "
                            + "May be repeated.")
    private Map<String, String> named = Map.of();

    @Option(
            names = "--sample-mhz",
            paramLabel = "MHZ",
            description =
                    "Sample rate of the instrument, MS/s; 0: ignore sampling (${DEFAULT-VALUE}).",
            defaultValue = "0")
    private double sampleMhz;

    @Option(
            names = "--clock-mhz",
            paramLabel = "NET=MHZ",
            description =
                    "Frequency of a clock of the chip by whose cycles the line of a watch circuit is "
                            + "late: these cycles are part of its delay then. May be repeated.")
    private Map<String, Double> clocksMhz = Map.of();

    @Option(
            names = "--independent",
            description =
                    "Takes each line anywhere between its corners, independently of the others. "
                            + "Without it, all lines are on one die: together between fast and slow.")
    private boolean independent;

    @Option(
            names = "--local-percent",
            paramLabel = "PERCENT",
            defaultValue = "5",
            description =
                    "By how much two routes of the same delay can differ on one die, per cent "
                            + "(${DEFAULT-VALUE}).")
    private double local;

    @Option(
            names = "--others-ps",
            paramLabel = "PS",
            defaultValue = "0",
            description =
                    "Delay of the channels that are not on the sheet, from where they are clipped on "
                            + "to the instrument, ps (${DEFAULT-VALUE}).")
    private int others;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "FILE",
            description = "The deskewed capture, in the same format.")
    private Path output;

    @Override
    public Integer call() throws BadInput {
        Outputs.check(output, capture, sheet);
        if (!(sampleMhz >= 0 && sampleMhz <= 1e6)) {
            throw new BadInput("--sample-mhz", "", "a number from 0 to 1000000", "" + sampleMhz);
        }
        if (!(local >= 0 && local <= 100)) {
            throw new BadInput("--local-percent", "", "a number from 0 to 100", "" + local);
        }
        if (others < 0 || others > FileLimits.MEASURED_PS) {
            String expected = "a number from 0 to " + FileLimits.MEASURED_PS;
            throw new BadInput("--others-ps", "", expected, "" + others);
        }
        SheetDeskew deskew =
                new SheetDeskew(
                        sheet,
                        named,
                        Instrument.samplePs(sampleMhz),
                        clocksMhz,
                        independent,
                        local,
                        others);
        SheetDeskew.Result result = deskewed(deskew);
        Map<String, SheetLines.Line> found = result.found();
        print(result.done(), found, result.used());
        return found.isEmpty() ? ExitStatus.NOT_OPEN : ExitStatus.DONE;
    }

    private SheetDeskew.Result deskewed(SheetDeskew deskew) throws BadInput {
        try {
            return deskew.write(capture, output, ConsoleProgress.of(spec));
        } catch (BadInput fault) {
            throw fault.orBy("--channel to choose one");
        }
    }

    private void print(Deskewed done, Map<String, SheetLines.Line> found, Deskew used) {
        List<String> channels = done.channels();
        PrintWriter out = spec.commandLine().getOut();
        TextTable table =
                new TextTable(
                        "channel", "delay at the instrument", "add to time stamps", "uncertain by");
        List<String> unknown = new ArrayList<>();
        for (String channel : channels) {
            SheetLines.Line line = found.get(channel);
            if (line == null) {
                unknown.add(channel);
            } else {
                table.row(
                        channel,
                        text(line),
                        shiftText(used.edges(channel)),
                        String.format(
                                Locale.ROOT,
                                "± %.4f ns",
                                used.mostUncertainFs(channel, channels) / 1e6));
            }
        }
        table.print(out);
        if (found.isEmpty()) {
            out.println("No channel of the capture is on the sheet: no time stamp is changed.");
        } else {
            out.println(used.referenceText());
            out.println(
                    "Uncertain by: at most, for rising and falling edges that were not moved, against"
                            + " those of any other channel; sampling is included.");
            if (used.shifts().values().stream().anyMatch(Deskew.Edges::areApart)) {
                out.println(
                        "Rising edges are shifted by the delay of rising ones, falling edges by that of"
                                + " falling ones; other changes by the mean of both.");
            }
            new TreeMap<>(done.keptInOrder()).forEach((c, n) -> out.println(keptText(c, n)));
            if (used.commonFs() > 0) {
                out.printf(
                        Locale.ROOT,
                        "The die's corner moves all lines together by up to ± %.4f ns, which does"
                                + " not change their order.%n",
                        used.commonFs() / 1e6);
            }
        }
        for (Map.Entry<String, SheetLines.Line> late : new TreeMap<>(found).entrySet()) {
            SheetLines.Line line = late.getValue();
            if (line.lateCycles() > 0) {
                out.println(lateText(late.getKey(), line));
            }
        }
        if (!unknown.isEmpty() && !found.isEmpty()) {
            out.printf(
                    Locale.ROOT,
                    "Not on the sheet: %s: shifted with the others, by %+.4f ns, uncertain by ± %.4f"
                            + " ns.%n",
                    String.join(", ", unknown),
                    used.others().either().fs() / 1e6,
                    used.mostUncertainFs(unknown.get(0), channels) / 1e6);
        } else if (!unknown.isEmpty()) {
            out.println("Not on the sheet: " + String.join(", ", unknown));
        }
        done.withoutUnit()
                .ifPresent(
                        head ->
                                out.println(
                                        "The head of the time column, “"
                                                + head
                                                + "”, names no unit: taken as seconds."));
        out.println("Written: " + output);
        out.flush();
    }

    private static String shiftText(Deskew.Edges edges) {
        if (!edges.areApart()) {
            return String.format(Locale.ROOT, "%+.4f ns", edges.either().fs() / 1e6);
        }
        return String.format(
                Locale.ROOT,
                "%+.4f ns rising, %+.4f ns falling",
                edges.toHigh().fs() / 1e6,
                edges.toLow().fs() / 1e6);
    }

    private static String keptText(String channel, long changes) {
        boolean one = changes == 1;
        return channel
                + ": "
                + changes
                + (one ? " change" : " changes")
                + " would have come before the change that precedes "
                + (one ? "it; it is" : "them; they are")
                + " put right after it and marked as uncertain, because the pulse between is shorter"
                + " than the two edges' delays differ.";
    }

    private String lateText(String channel, SheetLines.Line line) {
        String cycles = line.lateCycles() + (line.lateCycles() == 1 ? " cycle of " : " cycles of ");
        int period = SheetDeskew.periodPs(line, clocksMhz);
        return channel
                + " is "
                + cycles
                + line.lateClock()
                + " late, "
                + (period > 0
                        ? String.format(
                                Locale.ROOT,
                                line.delay().isMeasured()
                                        ? "%.3f ns, which are added to its measured delay."
                                        : "%.3f ns, which its delay contains.",
                                (long) line.lateCycles() * period / 1000.0)
                        : "which its delay does not contain: state --clock-mhz "
                                + line.lateClock()
                                + "=MHZ.");
    }

    private static String text(SheetLines.Line line) {
        return line.delay().isMeasured()
                ? String.format(
                        Locale.ROOT,
                        "measured: %.3f ns ± %.3f ns",
                        line.delay().outsidePs() / 1000.0,
                        line.delay().tolerancePs() / 1000.0)
                : line.range().toText();
    }
}
