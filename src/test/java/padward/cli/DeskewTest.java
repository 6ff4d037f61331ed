package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.cli.output.ExitStatus;

/** Channels are found on the sheet by their names, and only by these. */
class DeskewTest {
    private static final String SHEET =
            """
            channel,place,net,instrumentFast_ps,instrumentSlow_ps,lead
            1,J1.2,a/out[1],2000,4000,
            2,J1.4,a/out[1],3000,5000,
            3,J1.1,b,5000,9000,clip3
            """;

    @TempDir private Path folder;
    private Path sheet;

    @BeforeEach
    void writeSheet() throws Exception {
        sheet = Files.writeString(folder.resolve("bench.csv"), SHEET);
    }

    private CommandRun deskew(String variable, String... more) throws Exception {
        Path capture =
                Files.writeString(
                        folder.resolve("capture.vcd"),
                        """
                        $timescale 1 ns $end
                        $scope module bench $end
                        $var wire 1 ! %s $end
                        $upscope $end
                        $enddefinitions $end
                        #0
                        0!
                        """
                                .formatted(variable));
        Object[] words = new Object[6 + more.length];
        Object[] first = {
            "deskew", capture, "--sheet", sheet, "-o", folder.resolve("deskewed.vcd")
        };
        System.arraycopy(first, 0, words, 0, 6);
        System.arraycopy(more, 0, words, 6, more.length);
        return CommandRun.of(words);
    }

    @ParameterizedTest
    @CsvSource({
        "J1.2, 2.000–4.000 ns",
        "b, 5.000–9.000 ns",
        "3, 5.000–9.000 ns",
        "ch3, 5.000–9.000 ns",
        "CH3, 5.000–9.000 ns",
        "clip3, 5.000–9.000 ns"
    })
    void aNameInsideAScopeIsMatched(String variable, String delay) throws Exception {
        CommandRun run = deskew(variable);
        assertThat(run.out()).contains(delay).doesNotContain("Not on the sheet");
        assertThat(run.code()).isZero();
    }

    @Test
    void measuredDelaysArePreferred() throws Exception {
        Files.writeString(
                sheet,
                """
                channel,net,instrumentFast_ps,instrumentSlow_ps,measured_ps,measuredTolerance_ps
                1,a,2000,4000,-100,30
                2,b,2000,4000,100.4,30
                """);
        assertThat(deskew("a").out()).contains("measured: 2.900 ns ± 0.030 ns");
        assertThat(deskew("b").out()).contains("measured: 3.100 ns ± 0.030 ns");
        Files.writeString(sheet, Files.readString(sheet).replace("100.4", "soon"));
        assertThat(deskew("b").err()).contains("measured_ps", "a number of picoseconds", "soon");
        // Its digits alone would take 600 MB.
        Files.writeString(sheet, Files.readString(sheet).replace("soon", "1e600000000"));
        assertThat(deskew("b").err()).contains("a number of picoseconds", "1e600000000");
    }

    @Test
    void aPinNumberIsNotAChannelNumber() throws Exception {
        CommandRun run = deskew("J7.3");
        assertThat(run.out())
                .contains("No channel of the capture is on the sheet: no time stamp is changed.")
                .contains("Not on the sheet", "bench.J7.3");
        assertThat(run.code()).isEqualTo(ExitStatus.NOT_OPEN);
    }

    @Test
    void aNameOfTwoLinesNeedsTheChannelOption() throws Exception {
        CommandRun run = deskew("a/out[1]");
        assertThat(run.code()).isEqualTo(ExitStatus.BAD_INPUT);
        assertThat(run.err()).contains("one line called a/out[1]", "--channel", "lines 1, 2");
        assertThat(folder.resolve("deskewed.vcd")).doesNotExist();
        assertThat(deskew("a/out[1]", "--channel", "a/out[1]=J1.4").out())
                .contains("3.000–5.000 ns");
        assertThat(deskew("a/out[1]", "--channel", "bench.a/out[1]=2").out())
                .contains("3.000–5.000 ns");
    }

    @Test
    void aChannelThatTheCaptureLacksIsReported() throws Exception {
        CommandRun run = deskew("b", "--channel", "c=b");
        assertThat(run.code()).isEqualTo(ExitStatus.BAD_INPUT);
        assertThat(run.err()).contains("--channel: expected a channel of the capture, found c");
    }

    @Test
    void sheetsSavedByASpreadsheetAreRead() throws Exception {
        Files.writeString(sheet, "\uFEFF" + SHEET.replace(',', ';').replace("\n", "\r\n") + "\r\n");
        assertThat(deskew("J1.4").out()).contains("3.000–5.000 ns");
    }

    @Test
    void aRepeatedColumnIsReported() throws Exception {
        Files.writeString(
                sheet, "channel,instrumentFast_ps,instrumentSlow_ps,instrumentFast_ps\n1,1,2,3\n");
        CommandRun run = deskew("1");
        assertThat(run.code()).isEqualTo(ExitStatus.BAD_INPUT);
        assertThat(run.err()).contains("expected each column once");
        // A separator at the end of every line, as spreadsheets leave it, is no column.
        Files.writeString(sheet, "channel,instrumentFast_ps,instrumentSlow_ps,\n1,3000,5000,\n");
        assertThat(deskew("1").out()).contains("3.000–5.000 ns");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "5000,4000",
                "-1,4000",
                "NaN,NaN",
                "1e3,2e3",
                "99999999999,99999999999",
                ",",
                "7"
            })
    void invalidDelaysAreReported(String delays) throws Exception {
        Files.writeString(sheet, "channel,instrumentFast_ps,instrumentSlow_ps\n1," + delays + "\n");
        CommandRun run = deskew("1");
        assertThat(run.code()).isEqualTo(ExitStatus.BAD_INPUT);
        assertThat(run.err()).contains("bench.csv, at record 1: expected a fast and a slow delay");
    }

    @Test
    void aFileThatIsNotASheetIsReported() throws Exception {
        Files.delete(sheet);
        assertThat(deskew("1").err())
                .contains("bench.csv: expected a file that can be read, found no such file");
        Files.createDirectory(sheet);
        assertThat(deskew("1").err()).contains("found a folder");
        Files.delete(sheet);
        Files.write(sheet, new byte[] {'a', (byte) 0xff, '\n'});
        assertThat(deskew("1").err()).contains("text in UTF-8");
        Files.writeString(sheet, "");
        assertThat(deskew("1").err()).contains("found an empty file");
        Files.writeString(sheet, SHEET + "\"4");
        assertThat(deskew("1").err()).contains("RFC 4180");
    }

    @Test
    void aWriteFaultIsNotReportedForTheCapture() throws Exception {
        Path there = Files.createDirectory(folder.resolve("deskewed.vcd"));
        assertThat(deskew("b").err()).contains("-o: expected the name of a file, found a folder");
        Files.delete(there);
        Files.createSymbolicLink(there, folder.resolve("none/x.vcd"));
        assertThat(deskew("b").err())
                .contains(
                        "deskewed.vcd: expected a file that can be written, found no such folder");
    }

    @Test
    void aTimeColumnWithoutAUnitIsSaid() throws Exception {
        Path capture = Files.writeString(folder.resolve("c.csv"), "time,b\n0,0\n1,1\n");
        Path to = folder.resolve("d.csv");
        CommandRun run = CommandRun.of("deskew", capture, "--sheet", sheet, "-o", to);
        assertThat(run.out())
                .contains("The head of the time column, “time”, names no unit: taken as seconds.");
        Files.writeString(capture, "time_s,b\n0,0\n1,1\n");
        CommandRun stated = CommandRun.of("deskew", capture, "--sheet", sheet, "-o", to);
        assertThat(stated.out()).doesNotContain("seconds");
    }

    @Test
    void aStatedLineMayBeTheBoardsNet() throws Exception {
        Files.writeString(
                sheet,
                """
                place,net,boardNet,instrumentFast_ps,instrumentSlow_ps
                J1.2,a,DBG0,2000,4000
                J1.4,b,DBG1,3000,5000
                J1.6,c,VIO,3000,6000
                J1.8,d,VIO,3000,7000
                """);
        CommandRun run = deskew("D0", "--channel", "D0=DBG1");
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).contains("3.000–5.000 ns");
        assertThat(deskew("D0", "--channel", "D0=DBG2").err())
                .contains(
                        "--channel: expected a line of the sheet: J1.2, J1.4, J1.6, J1.8, found DBG2");
        CommandRun several = deskew("D0", "--channel", "D0=VIO");
        assertThat(several.err()).contains("found VIO, a net of the board on several lines");
        assertThat(several.code()).isEqualTo(ExitStatus.BAD_INPUT);
        assertThat(deskew("DBG1").out()).contains("No channel of the capture is on the sheet");
    }
}
