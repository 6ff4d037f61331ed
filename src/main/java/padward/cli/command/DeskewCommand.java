package padward.cli.command;

import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.Callable;
import padward.base.BadInput;
import padward.capture.Captures;
import padward.capture.Channel;
import padward.capture.Deskew;
import padward.cli.option.Outputs;
import padward.cli.option.SheetLines;
import padward.cli.output.ExitStatus;
import padward.cli.output.TextTable;
import padward.fabric.Delay;
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
                "Deskews a capture: shifts each channel by its line's delay, so that changes "
                        + "are stamped as they left the nets' drivers, and marks the spans in which the "
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
                            + "net, port, pad, package pin or channel number. Another table also works if it "
                            + "has one of these columns and the columns instrumentFast_ps and "
                            + "instrumentSlow_ps.")
    private Path sheet;

    @Option(
            names = "--channel",
            paramLabel = "NAME=LINE",
            description =
                    "Assigns a line of the sheet to a channel, by one of the names of the line. "
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
        int samplePs = sampleMhz == 0 ? 0 : (int) Math.ceil(1e6 / sampleMhz);
        SheetLines lines = lines();
        Deskew[] used = new Deskew[1];
        List<String> channels =
                Captures.deskew(
                        capture, output, c -> used[0] = new Deskew(delays(c, lines), samplePs));
        print(channels, used[0]);
        return used[0].delays().isEmpty() ? ExitStatus.NOT_OPEN : ExitStatus.DONE;
    }

    private void print(List<String> channels, Deskew used) {
        PrintWriter out = spec.commandLine().getOut();
        TextTable table = new TextTable("channel", "delay", "add to time stamps", "uncertainty");
        List<String> unknown = new ArrayList<>();
        for (String channel : channels) {
            Delay delay = used.delays().get(channel);
            if (delay == null) {
                unknown.add(channel);
            } else {
                table.row(
                        channel,
                        delay.toText(),
                        String.format(Locale.ROOT, "%+.4f ns", used.shiftFs(channel) / 1e6),
                        String.format(Locale.ROOT, "± %.4f ns", used.uncertaintyFs(channel) / 1e6));
            }
        }
        table.print(out);
        if (!unknown.isEmpty()) {
            out.println("Not on the sheet, so not shifted: " + String.join(", ", unknown));
        }
        out.println("Written: " + output);
        out.flush();
    }

    /**
     * The delays of the channels whose name is also the name of a line of the sheet.
     *
     * @throws BadInput when a name matches no channel
     */
    private Map<String, Delay> delays(List<Channel> channels, SheetLines lines) throws BadInput {
        Set<String> unmatched = new TreeSet<>(named.keySet());
        Map<String, Delay> result = new HashMap<>();
        for (Channel channel : channels) {
            String said = named.getOrDefault(channel.name(), named.get(channel.own()));
            unmatched.remove(channel.name());
            unmatched.remove(channel.own());
            List<String> names =
                    said == null ? List.of(channel.name(), channel.own()) : List.of(said);
            // The own name may fit several lines, which does not matter once a line is found.
            for (int i = 0; i < names.size() && !result.containsKey(channel.name()); i++) {
                lines.find(names.get(i)).ifPresent(d -> result.put(channel.name(), d));
            }
        }
        for (String name : unmatched) {
            throw new BadInput("--channel", "", "a channel of the capture", name);
        }
        return result;
    }

    private SheetLines lines() throws BadInput {
        SheetLines lines = SheetLines.read(sheet);
        for (String line : named.values()) {
            if (!lines.knows(line)) {
                throw new BadInput("--channel", "", "a name of a line of the sheet", line);
            }
        }
        return lines;
    }
}
