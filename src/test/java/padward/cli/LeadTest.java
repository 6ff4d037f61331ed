package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Which lead is on which line: kept in the ledger, so that a channel stays the same lead. */
class LeadTest {
    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    @BeforeEach
    void keepThree() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("l.json");
        for (String[] one :
                new String[][] {
                    {"pump/level/sample[0]", "J2.1"},
                    {"pump/run/decide", "J2.2"},
                    {"pump/level/sample[1]", "TP5"}
                }) {
            CommandRun run =
                    CommandRun.of("keep", "-d", design, "-l", ledger, "-n", one[0], "-p", one[1]);
            assertThat(run.err()).isEmpty();
            assertThat(run.code()).isZero();
        }
    }

    private List<CSVRecord> sheet() throws Exception {
        Path file = folder.resolve("s.csv");
        assertThat(CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", file).code()).isZero();
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        return CSVParser.parse(Files.readString(file), format).getRecords();
    }

    private static List<String> column(List<CSVRecord> records, String name) {
        return records.stream().map(r -> r.get(name)).toList();
    }

    private CommandRun lead(String... more) {
        Object[] words = new Object[5 + more.length];
        System.arraycopy(new Object[] {"lead", "-d", design, "-l", ledger}, 0, words, 0, 5);
        System.arraycopy(more, 0, words, 5, more.length);
        return CommandRun.of(words);
    }

    @Test
    void channelsStayWhenAnEntryIsUndone() throws Exception {
        assertThat(column(sheet(), "channel")).containsExactly("1", "2", "3");
        CommandRun undo = CommandRun.of("undo", "-d", design, "-l", ledger, "--entry", "2");
        assertThat(undo.code()).isZero();
        assertThat(column(sheet(), "channel")).containsExactly("1", "3");
    }

    @Test
    void aLeadsOwnNameIsOnTheSheet() throws Exception {
        String port = column(sheet(), "port").get(1);
        CommandRun run = lead("--port", port, "--name", "clip 3", "--pod", "A", "--colour", "red");
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("pod A, red, clip 3");
        assertThat(lead("--port", port, "--channel", "7").code()).isZero();
        CSVRecord line = sheet().get(1);
        assertThat(List.of(line.get("channel"), line.get("lead"), line.get("pod")))
                .containsExactly("7", "clip 3", "A");
        Path page = folder.resolve("s.html");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page);
        assertThat(Files.readString(page)).contains("clip 3").contains("A, red");
    }

    @Test
    void aToleranceNeedsAMeasuredDelay() throws Exception {
        String port = column(sheet(), "port").get(0);
        CommandRun none = lead("--port", port, "--tolerance-ps", "30");
        assertThat(none.code()).isEqualTo(2);
        assertThat(none.err()).contains("--tolerance-ps: expected a measured delay (measured-ps)");
        lead("--port", port, "--measured-ps", "120");
        assertThat(lead("--port", port, "--tolerance-ps", "30").out()).contains("120 ± 30 ps");
        assertThat(lead("--port", port, "--name", "clip").out()).contains("120 ± 30 ps");
    }

    @Test
    void aLeadsLengthIsPartOfItsDelay() throws Exception {
        List<CSVRecord> before = sheet();
        String port = before.get(0).get("port");
        assertThat(lead("--port", port, "--length-m", "0.5").out()).contains("0.5 m");
        List<CSVRecord> after = sheet();
        // 3.3356 ns/m at a velocity factor of 0.66, ± 5 %: Ott, and 1/c.
        double most = 0.5 * 3335.64 / 0.66 * 1.05;
        assertThat(slowPs(after.get(0)) - slowPs(before.get(0))).isEqualTo((int) Math.round(most));
        assertThat(slowPs(after.get(1))).isEqualTo(slowPs(before.get(1)));
        assertThat(column(after, "lead_m")).containsExactly("0.5", "0", "0");
        Path page = folder.resolve("s.html");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page, "--lead-m", "0.3");
        assertThat(Files.readString(page))
                .contains("leads as the ledger states them (0.5 m on channel 1)")
                .contains("others of 0.3 m, as stated for this sheet");
        assertThat(lead("--port", port, "--length-m", "").out()).doesNotContain("0.5 m");
        assertThat(slowPs(sheet().get(0))).isEqualTo(slowPs(before.get(0)));
    }

    private static int slowPs(CSVRecord line) {
        return Integer.parseInt(line.get("instrumentSlow_ps"));
    }

    @Test
    void aGroupsLeadsHaveTheLengthThatTheGroupWasRoutedWith() throws Exception {
        Path group = folder.resolve("g.json");
        Path file = folder.resolve("g.csv");
        String[] words = {
            "bus",
            "-d",
            design.toString(),
            "--nets",
            "pump/level/sample[*]",
            "--pads",
            "header J1,header J2",
            "--lead-m",
            "0.3",
            "--ledger",
            group.toString(),
            "--json"
        };
        CommandRun bus = CommandRun.of((Object[]) words);
        assertThat(bus.err()).isEmpty();
        CommandRun.of("sheet", "-d", design, "-l", group, "-o", file);
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        List<CSVRecord> lines = CSVParser.parse(Files.readString(file), format).getRecords();
        assertThat(lines).isNotEmpty();
        assertThat(column(lines, "lead_m")).containsOnly("0.3");
        for (CSVRecord line : lines) {
            assertThat(bus.out().replaceAll("\\s", ""))
                    .contains(
                            "\"instrument_ps\":["
                                    + line.get("instrumentFast_ps")
                                    + ","
                                    + line.get("instrumentSlow_ps"));
        }
    }

    @Test
    void whatDoesNotFitIsRefused() throws Exception {
        byte[] before = Files.readAllBytes(ledger);
        assertThat(lead("--port", "out_J2").err()).contains("did you mean");
        String port = column(sheet(), "port").get(0);
        CommandRun taken = lead("--port", port, "--channel", "2");
        assertThat(taken.code()).isEqualTo(2);
        assertThat(taken.err()).contains("a channel of no other line");
        for (String[] wrong :
                new String[][] {
                    {"--channel", "0"},
                    {"--channel", "one"},
                    {"--length-m", "-1"},
                    {"--length-m", "101"},
                    {"--length-m", "1,000"},
                    {"--length-m", "10,250"},
                    {"--name", "x".repeat(101)},
                    {"--pod", "a\nb"},
                }) {
            CommandRun run = lead("--port", port, wrong[0], wrong[1]);
            assertThat(run.code()).as(wrong[1]).isEqualTo(2);
            assertThat(run.err()).contains(wrong[0] + ": expected");
        }
        assertThat(Files.readAllBytes(ledger)).isEqualTo(before);
    }

    @Test
    void aLedgerThatIsNotThereIsSaid() throws Exception {
        Files.delete(ledger);
        Path capture = Files.writeString(folder.resolve("c.csv"), "time_ns,J2.1\n0,0\n1,1\n");
        for (CommandRun run :
                new CommandRun[] {
                    lead("--capture", "" + capture), lead("--port", "p", "--name", "clip 3"), lead()
                }) {
            assertThat(run.err()).contains("l.json: expected a ledger, found no such file");
            assertThat(run.code()).isEqualTo(2);
        }
        assertThat(ledger).doesNotExist();
    }
}
