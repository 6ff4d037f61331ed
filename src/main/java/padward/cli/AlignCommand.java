package padward.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.Callable;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import padward.base.BadInput;
import padward.capture.Alignment;
import padward.capture.Captures;
import padward.fabric.Delay;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

/** {@code align}: a capture brought level by its channels' delays. */
@Command(
        name = "align",
        mixinStandardHelpOptions = true,
        description = {
            "Shifts each channel of a capture by its line's delay, so that all stand as they left"
                    + " the",
            "nets' drivers, and marks the spans in which the order of changes on different"
                    + " channels",
            "is uncertain. Reads and writes VCD (IEEE 1364) or CSV (RFC 4180)."
        },
        footer = {
            "",
            "Example:",
            "  padward align capture.vcd --sheet bench.csv --sample-mhz 500 -o level.vcd"
        })
final class AlignCommand implements Callable<Integer> {
    private static final List<String> NAMES =
            List.of("channel", "place", "net", "port", "pad", "packagePin");
    private static final String FAST = "instrumentFast_ps";
    private static final String SLOW = "instrumentSlow_ps";

    @Spec private CommandSpec spec;

    @Parameters(paramLabel = "CAPTURE", description = "The capture: .vcd or .csv.")
    private Path capture;

    @Option(
            names = {"-s", "--sheet"},
            required = true,
            paramLabel = "FILE",
            description =
                    "The bench sheet as .csv. A channel is known by a line's place, net, port, pad or "
                            + "package pin; another table will do that has a column channel or one of these, and "
                            + "instrumentFast_ps and instrumentSlow_ps.")
    private Path sheet;

    @Option(
            names = "--channel",
            paramLabel = "NAME=LINE",
            description = "Says which line a channel shows, by one of the line's names.")
    private Map<String, String> named = Map.of();

    @Option(
            names = "--sample-mhz",
            paramLabel = "MHZ",
            description =
                    "How many samples a microsecond the instrument took; 0 counts no sampling.",
            defaultValue = "0")
    private double sampleMhz;

    @Option(
            names = {"-o", "--output"},
            required = true,
            paramLabel = "FILE",
            description = "The aligned capture, in the same form.")
    private Path output;

    @Override
    public Integer call() throws BadInput {
        Outputs.check(output, capture, sheet);
        if (!(sampleMhz >= 0 && sampleMhz <= 1e6)) {
            throw new BadInput("--sample-mhz", "", "a number from 0 to 1000000", "" + sampleMhz);
        }
        int samplePs = sampleMhz == 0 ? 0 : (int) Math.ceil(1e6 / sampleMhz);
        Map<String, Delay> lines = lines();
        Alignment[] used = new Alignment[1];
        List<String> channels =
                Captures.align(
                        capture,
                        output,
                        names -> used[0] = new Alignment(delays(names, lines), samplePs));
        print(channels, used[0]);
        return used[0].delays().isEmpty() ? Padward.NOT_OPEN : Padward.DONE;
    }

    private void print(List<String> channels, Alignment used) {
        PrintWriter out = spec.commandLine().getOut();
        TextTable table = new TextTable("channel", "delay", "shifted by", "uncertain by");
        List<String> unknown = new ArrayList<>();
        for (String channel : channels) {
            Delay delay = used.delays().get(channel);
            if (delay == null) {
                unknown.add(channel);
            } else {
                table.row(
                        channel,
                        delay.toText(),
                        String.format(Locale.ROOT, "%+.4f ns", used.correctionFs(channel) / 1e6),
                        String.format(Locale.ROOT, "± %.4f ns", used.uncertaintyFs(channel) / 1e6));
            }
        }
        table.print(out);
        if (!unknown.isEmpty()) {
            out.println("Not on the sheet, so left where they are: " + String.join(", ", unknown));
        }
        out.println("Written: " + output);
        out.flush();
    }

    /** The delays of the channels that a line of the sheet has a name of. */
    private Map<String, Delay> delays(List<String> channels, Map<String, Delay> lines) {
        Map<String, Delay> result = new HashMap<>();
        for (String channel : channels) {
            String last = channel.substring(channel.lastIndexOf('.') + 1);
            for (String name : List.of(named.getOrDefault(channel, channel), channel, last)) {
                String line = named.getOrDefault(name, name);
                if (lines.containsKey(line)) {
                    result.putIfAbsent(channel, lines.get(line));
                }
            }
        }
        return result;
    }

    private Map<String, Delay> lines() throws BadInput {
        Map<String, Delay> result = new HashMap<>();
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        try (Reader in = Files.newBufferedReader(sheet, StandardCharsets.UTF_8);
                CSVParser rows = CSVParser.parse(in, format)) {
            if (!rows.getHeaderNames().containsAll(List.of(FAST, SLOW))) {
                String expected = "columns " + FAST + " and " + SLOW;
                String found = String.join(", ", rows.getHeaderNames());
                throw new BadInput(sheet.toString(), "line 1", expected, found);
            }
            for (CSVRecord row : rows) {
                Delay delay = delay(row);
                for (String name : NAMES) {
                    if (row.isMapped(name) && !row.get(name).isBlank()) {
                        result.put(row.get(name).strip(), delay);
                    }
                }
            }
        } catch (IOException | IllegalArgumentException fault) {
            String found = "" + fault.getMessage();
            throw new BadInput(sheet.toString(), "", "a bench sheet as CSV", found);
        }
        for (String line : named.values()) {
            if (!result.containsKey(line)) {
                throw new BadInput("--channel", "", "a name of a line of the sheet", line);
            }
        }
        return result;
    }

    private Delay delay(CSVRecord row) throws BadInput {
        try {
            return new Delay(Integer.parseInt(row.get(FAST)), Integer.parseInt(row.get(SLOW)));
        } catch (IllegalArgumentException wrong) {
            throw new BadInput(
                    sheet.toString(),
                    "record " + row.getRecordNumber(),
                    "a fast and a slow delay in whole picoseconds",
                    row.get(FAST) + ", " + row.get(SLOW));
        }
    }
}
