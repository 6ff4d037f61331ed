package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVPrinter;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** One net on all pads of a group shows what their lines differ by; deskew then uses that. */
class CalibrateTest {
    private static final String PADS = "J1.1,J1.2,J1.4";

    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
    }

    private CommandRun run(String command, Object... more) {
        List<Object> words = new ArrayList<>(List.of(command, "--design", design));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray());
    }

    private static List<CSVRecord> rows(Path file) throws Exception {
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        return CSVParser.parse(Files.readString(file), format).getRecords();
    }

    @Test
    void oneNetComesOutOnAllPads() {
        CommandRun run =
                run("bus", "--calibrate", "pump/level/sample[0]", "--pads", PADS, "--json");
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isZero();
        assertThat(run.json().getAsJsonArray("lines")).hasSize(3);
        // What the three share has no local variation: at most the drivers' 5 % of 3.1 ns and more.
        run.json()
                .getAsJsonArray("skews")
                .forEach(
                        s ->
                                assertThat(s.getAsJsonObject().get("local_ps").getAsInt())
                                        .isPositive());
    }

    @Test
    void namesOfNetsAndACalibrationExcludeEachOther() {
        CommandRun both = run("bus", "--calibrate", "x", "--nets", "y", "--pads", PADS);
        assertThat(both.code()).isEqualTo(2);
        assertThat(both.err()).contains("--calibrate: expected no --nets");
        CommandRun aim = run("bus", "--calibrate", "x", "--aim", "skew", "--pads", PADS);
        assertThat(aim.code()).isEqualTo(2);
        assertThat(aim.err()).contains("--aim", "together with it");
        assertThat(run("bus", "--calibrate", "x", "--unblock", "--pads", PADS).code()).isEqualTo(2);
        CommandRun none = run("bus", "--pads", PADS);
        assertThat(none.code()).isEqualTo(2);
        assertThat(none.err()).contains("--nets: expected the name of a net");
    }

    /**
     * A simulated bench: each pad's output path is off by an unknown amount, which the calibration
     * shows and the deskewed capture no longer has. Without it, the error is larger than a sample.
     */
    @Test
    void whatWasMeasuredIsRemoved() throws Exception {
        Iterator<Integer> drawn = List.of(-800, 650, 300).iterator();
        Path cal = folder.resolve("cal.json");
        assertThat(
                        run("bus", "--calibrate", "pump/run/hold", "--pads", PADS, "--ledger", cal)
                                .code())
                .isZero();
        Path calSheet = folder.resolve("cal.csv");
        assertThat(run("sheet", "--ledger", cal, "-o", calSheet).code()).isZero();
        List<CSVRecord> lines = rows(calSheet);
        assertThat(lines).hasSize(3);
        Map<String, Integer> off = new HashMap<>();
        List<String> names = List.of(Files.readAllLines(calSheet).get(0).split(","));
        StringBuilder filled = new StringBuilder();
        try (CSVPrinter out = new CSVPrinter(filled, CSVFormat.RFC4180)) {
            out.printRecord(names);
            for (CSVRecord line : lines) {
                off.put(line.get("pad"), drawn.next());
                List<String> cells = new ArrayList<>(line.toList());
                int at = names.indexOf("measured_ps");
                cells.set(at, "" + (middle(line) + off.get(line.get("pad")) - 2_700));
                cells.set(at + 1, "20");
                out.printRecord(cells);
            }
        }
        Files.writeString(calSheet, filled);
        Path group = folder.resolve("l.json");
        assertThat(
                        run(
                                        "bus",
                                        "--nets",
                                        "pump/level/sample[*]",
                                        "--pads",
                                        PADS,
                                        "--ledger",
                                        group)
                                .code())
                .isZero();
        Path sheet = folder.resolve("s.csv");
        assertThat(run("sheet", "--ledger", group, "-o", sheet, "--calibration", calSheet).code())
                .isZero();
        List<CSVRecord> real = rows(sheet);
        assertThat(number(real.get(0), "addToTime_ps") - number(real.get(1), "addToTime_ps"))
                .isEqualTo(number(real.get(1), "measured_ps") - number(real.get(0), "measured_ps"));
        Path page = folder.resolve("s.html");
        run("sheet", "--ledger", group, "-o", page, "--calibration", calSheet);
        assertThat(Files.readString(page)).contains("measured: ", "differences count");
        run("sheet", "--ledger", group, "-o", page);
        assertThat(Files.readString(page)).doesNotContain("measured: ", "differences count");
        StringBuilder capture = new StringBuilder("$timescale 1 ps $end\n");
        for (int i = 0; i < 2; i++) {
            assertThat(real.get(i).get("measured_ps")).isNotEmpty();
            assertThat(Integer.parseInt(real.get(i).get("measuredTolerance_ps")))
                    .isBetween(20, 150);
            capture.append("$var wire 1 ")
                    .append((char) ('a' + i))
                    .append(" ch" + (i + 1) + " $end\n");
        }
        capture.append("$enddefinitions $end\n");
        // Both change at 50 ns.
        List<long[]> stamps = new ArrayList<>();
        for (int i = 0; i < 2; i++) {
            stamps.add(
                    new long[] {50_000 + middle(real.get(i)) + off.get(real.get(i).get("pad")), i});
        }
        stamps.sort((a, b) -> Long.compare(a[0], b[0]));
        for (long[] stamp : stamps) {
            capture.append('#')
                    .append(stamp[0])
                    .append("\n1")
                    .append((char) ('a' + stamp[1]))
                    .append('\n');
        }
        Path in = Files.writeString(folder.resolve("c.vcd"), capture);
        Path out = folder.resolve("d.vcd");
        CommandRun run = CommandRun.of("deskew", in, "--sheet", sheet, "-o", out);
        assertThat(run.out()).contains("measured: ");
        List<Long> back =
                Files.readString(out)
                        .lines()
                        .filter(l -> l.startsWith("#") || l.equals("1a") || l.equals("1b"))
                        .reduce(
                                new ArrayList<Long>(List.of(0L)),
                                (all, l) -> {
                                    if (l.startsWith("#")) {
                                        all.set(0, Long.parseLong(l.substring(1)));
                                    } else {
                                        all.add(all.get(0));
                                    }
                                    return all;
                                },
                                (a, b) -> a);
        assertThat(Math.abs(back.get(1) - back.get(2))).isLessThanOrEqualTo(3);
        assertThat(Math.abs(off.get(real.get(0).get("pad")) - off.get(real.get(1).get("pad"))))
                .isGreaterThan(100);
    }

    private static int number(CSVRecord line, String column) {
        return Integer.parseInt(line.get(column));
    }

    private static int middle(CSVRecord line) {
        int fast = Integer.parseInt(line.get("instrumentFast_ps"));
        int slow = Integer.parseInt(line.get("instrumentSlow_ps"));
        return (fast + slow) / 2;
    }

    /** A pad on which the net is already is no loss for the port that brings it out. */
    @Test
    void aPadOfTheNetsOwnIsNotLost() {
        Path ledger = folder.resolve("own.json");
        run("keep", "-n", "pump/run/hold", "-p", "J1.1", "-l", ledger);
        CommandRun bus =
                run("bus", "--calibrate", "pump/run/hold", "--pads", PADS, "--ledger", ledger);
        assertThat(bus.out()).doesNotContain("would lose pad");
        assertThat(bus.code()).isZero();
    }

    @Test
    void aMeasuredDelayIsKeptInTheLedger() throws Exception {
        Path ledger = folder.resolve("l.json");
        run("keep", "-n", "pump/run/hold", "-p", "J1.1", "-l", ledger);
        CommandRun lead =
                run(
                        "lead",
                        "-l",
                        ledger,
                        "--port",
                        "out_J1.1",
                        "--measured-ps",
                        -120,
                        "--tolerance-ps",
                        50);
        assertThat(lead.err()).isEmpty();
        assertThat(lead.out()).contains(String.format(Locale.ROOT, "-120 ± 50 ps"));
        Path sheet = folder.resolve("s.csv");
        run("sheet", "-l", ledger, "-o", sheet);
        assertThat(rows(sheet).get(0).get("measured_ps")).isEqualTo("-120");
        assertThat(rows(sheet).get(0).get("measuredTolerance_ps")).isEqualTo("50");
    }

    /** The capture of a calibration says by how much the lines differ; one pad may invert. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void aCaptureGivesTheLinesTheirMeasuredDelays(boolean inverts) throws Exception {
        Path cal = folder.resolve("cal.json");
        if (inverts) {
            String pad =
                    run("bus", "--calibrate", "pump/run/hold", "--pads", PADS, "--json")
                            .json()
                            .getAsJsonArray("lines")
                            .get(0)
                            .getAsJsonObject()
                            .get("pad")
                            .getAsString();
            Path fabric = folder.resolve("only.fabric.json");
            String name = "{\"pad\": \"" + pad + "\",";
            String text = Files.readString(fabric);
            assertThat(text).contains(name);
            Files.writeString(fabric, text.replace(name, name + " \"inverts\": true,"));
        }
        run("bus", "--calibrate", "pump/run/hold", "--pads", PADS, "--ledger", cal);
        Path sheet = folder.resolve("cal.csv");
        run("sheet", "--ledger", cal, "-o", sheet);
        List<CSVRecord> lines = rows(sheet);
        List<Integer> off = List.of(-800, 650, 300);
        List<Long> late = new ArrayList<>();
        for (int i = 0; i < lines.size(); i++) {
            late.add((long) middle(lines.get(i)) + off.get(i));
        }
        String shown = toggling(late);
        if (inverts) {
            assertThat(lines.get(0).get("polarity")).startsWith("the inverse of the net");
            shown = swapped(shown);
        }
        Path capture = Files.writeString(folder.resolve("c.vcd"), shown);
        String before = Files.readString(cal);
        CommandRun dry =
                run("lead", "-l", cal, "--capture", capture, "--sample-mhz", 500, "--dry-run");
        assertThat(dry.out()).contains("Not recorded", "± 1000 ps");
        assertThat(Files.readString(cal)).isEqualTo(before);
        CommandRun lead = run("lead", "-l", cal, "--capture", capture, "--sample-mhz", 500);
        assertThat(lead.err()).isEmpty();
        assertThat(lead.code()).isZero();
        run("sheet", "--ledger", cal, "-o", sheet);
        List<CSVRecord> measured = rows(sheet);
        for (int i = 1; i < 3; i++) {
            assertThat(
                            number(measured.get(i), "measured_ps")
                                    - number(measured.get(0), "measured_ps"))
                    .isEqualTo((int) (late.get(i) - late.get(0)));
            assertThat(number(measured.get(i), "measuredTolerance_ps")).isEqualTo(1000);
        }
    }

    @Test
    void whatIsNoCalibrationIsRefused() throws Exception {
        Path ledger = folder.resolve("l.json");
        run("keep", "-n", "pump/run/hold", "-p", "J1.1", "-l", ledger);
        Path capture =
                Files.writeString(folder.resolve("c.vcd"), toggling(List.of(100L, 200L, 300L)));
        CommandRun one = run("lead", "-l", ledger, "--capture", capture);
        assertThat(one.code()).isEqualTo(2);
        assertThat(one.err()).contains("an entry that brings one net out on several pads");
        CommandRun both = run("lead", "-l", ledger, "--capture", capture, "--port", "out_J1.1");
        assertThat(both.code()).isEqualTo(2);
        assertThat(both.err()).contains("no --port together with it");
        CommandRun rate = run("lead", "-l", ledger, "--sample-mhz", 100);
        assertThat(rate.code()).isEqualTo(2);
        assertThat(rate.err()).contains("--capture together with it");
    }

    /** A net that toggles ten times, as channels that are late see it. */
    private static String toggling(List<Long> late) {
        StringBuilder text = new StringBuilder("$timescale 1 ps $end\n");
        for (int i = 0; i < late.size(); i++) {
            text.append("$var wire 1 ")
                    .append((char) ('a' + i))
                    .append(" ch" + (i + 1) + " $end\n");
        }
        text.append("$enddefinitions $end\n$dumpvars 0a 0b 0c $end\n");
        for (int change = 0; change < 10; change++) {
            List<Integer> order = new ArrayList<>(List.of(0, 1, 2));
            order.sort((a, b) -> Long.compare(late.get(a), late.get(b)));
            for (int i : order) {
                text.append('#').append(100_000L * (change + 1) + late.get(i)).append('\n');
                text.append(1 - change % 2).append((char) ('a' + i)).append('\n');
            }
        }
        return text.toString();
    }

    /** The same capture with its first channel inverted. */
    private static String swapped(String capture) {
        return capture.replace("0a", "xa").replace("1a", "0a").replace("xa", "1a");
    }
}
