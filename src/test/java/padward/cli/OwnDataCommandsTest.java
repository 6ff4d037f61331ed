package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The commands for a user's own tables, package pins and netlists, run as a user runs them. */
class OwnDataCommandsTest {
    private static final String MAPPING = "fixtures/netlists/larch.mapping.json";

    @TempDir private Path folder;

    private record Run(int code, String out, String err) {}

    private static Run run(Object... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        String[] texts = Arrays.stream(words).map(Object::toString).toArray(String[]::new);
        return new Run(line.execute(texts), out.toString(), err.toString());
    }

    @Test
    void theExampleOfTheGuideWorks() {
        Path wren = folder.resolve("wren");
        Run imported = run("import", "--tables", "fixtures/tables", "-o", wren);
        assertThat(imported.code()).as(imported.err()).isZero();
        assertThat(imported.out()).contains("2 cells, 3 nets, 2 ports").contains("22 switches");
        Run asked =
                run(
                        "ask",
                        "--design",
                        wren.resolve("design.json.gz"),
                        "--net",
                        "state",
                        "--pad",
                        "J1.1");
        assertThat(asked.code()).isZero();
        assertThat(asked.out()).contains("Open: state reaches pin 3 (FREE)");
        Run again = run("import", "--tables", "fixtures/tables", "-o", wren, "--replace");
        assertThat(again.code()).isZero();
    }

    @Test
    void faultyTablesAreNotImportedAtAll() throws Exception {
        Path tables = folder.resolve("tables");
        assertThat(
                        run(
                                        "export",
                                        "--design",
                                        "fixtures/small/only.design.json",
                                        "--tables",
                                        tables)
                                .code())
                .isZero();
        Path wires = tables.resolve("wires.csv");
        Files.writeString(wires, Files.readString(wires) + "loose,,,,\n");
        Path out = folder.resolve("out");
        Run run = run("import", "--tables", tables, "-o", out, "--faults", "1");
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err())
                .contains("wires.csv, at row 1314, column tile: expected a tile, or a name")
                .contains("nothing imported: 1 fault");
        assertThat(out).doesNotExist();
        Files.createDirectory(out);
        Files.writeString(out.resolve("mine.txt"), "mine");
        Run other = run("import", "--tables", "fixtures/tables", "-o", out);
        assertThat(other.code()).isEqualTo(2);
        assertThat(other.err()).contains("found \"mine.txt\" in it");
        assertThat(out.resolve("mine.txt")).hasContent("mine");
    }

    @Test
    void pinsAreListedAndCompared() {
        String bsdl = "fixtures/package/larch-8.bsdl";
        Run listed = run("pins", "--bsdl", bsdl);
        assertThat(listed.out()).contains("larch_8, pin map SQUARE60").contains("IN_F3");
        Run compared = run("pins", "--bsdl", bsdl, "--fabric", "fixtures/small/only.fabric.json");
        assertThat(compared.code()).isZero();
        assertThat(compared.out())
                .contains("4 signal pins without a pad: G1 (TCK)")
                .contains("the pads agree with larch_8");
        Run differs = run("pins", "--bsdl", bsdl, "--fabric", "fixtures/workbench/fabric.json.gz");
        assertThat(differs.code()).isEqualTo(1);
        assertThat(differs.out()).contains("the package has no such pin");
    }

    /** Text and JSON tell the same, with the same exit status. */
    @Test
    void pinsThatOnlyTheBoardHasAreDifferences() throws Exception {
        Path nets =
                Files.writeString(folder.resolve("n.csv"), "net,part,pin\nCLK,U1,A1\nCLK,U1,ZZ9\n");
        Object[] words = {
            "pins",
            "--bsdl",
            "fixtures/package/larch-8.bsdl",
            "--fabric",
            "fixtures/small/only.fabric.json",
            "--nets",
            nets,
            "--chip",
            "U1",
            "--quiet"
        };
        assertThat(run(words).code()).isEqualTo(1);
        words[9] = "--json";
        Run json = run(words);
        assertThat(json.code()).isEqualTo(1);
        assertThat(json.out())
                .contains("the package has no pin ZZ9, but the board has")
                .contains("\"withoutPad\": [")
                .contains("G1 (TCK)");
        Object[] text = Arrays.copyOf(words, 9);
        assertThat(run(text).out())
                .contains("the package has no pin ZZ9, but the board has")
                .contains("4 signal pins without a pad")
                .endsWith("1 difference" + System.lineSeparator());
    }

    @Test
    void aNetlistIsPlacedRoutedAndAsked() {
        Path design = folder.resolve("counter.design.json");
        Path made = folder.resolve("made");
        assertThat(run("make", "--wires", "8000", "--seed", "5", "--used", "0", "-o", made).code())
                .isZero();
        Run run =
                run(
                        "place-route",
                        "--netlist",
                        "fixtures/netlists/counter.v",
                        "--mapping",
                        MAPPING,
                        "--fabric",
                        made.resolve("fabric.json.gz"),
                        "-o",
                        design);
        assertThat(run.code()).as(run.err()).isZero();
        assertThat(run.out())
                .contains("32 cells, 10 ports, 34 nets")
                .contains("8 output registers are in IO register sites")
                .contains("worst delay:");
        Run checked = run("check", design);
        assertThat(checked.code()).isZero();
        Run wrong =
                run(
                        "place-route",
                        "--netlist",
                        "fixtures/netlists/counter.v",
                        "--mapping",
                        MAPPING,
                        "--fabric",
                        made.resolve("fabric.json.gz"),
                        "-o",
                        design,
                        "--port",
                        "clok=S1");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("the nearest name is “clock”");
    }

    @Test
    void placeRouteNeverOverwritesWhatItReads() throws Exception {
        for (String option : new String[] {"--netlist", "--mapping", "--fabric", "--board"}) {
            Path input = Files.writeString(folder.resolve("input"), "a user's own");
            List<Object> words = new ArrayList<>(List.of("place-route", "-o", input));
            for (String each : new String[] {"--netlist", "--mapping", "--fabric", "--board"}) {
                words.addAll(List.of(each, each.equals(option) ? input : MAPPING));
            }
            CommandRun run = CommandRun.of(words.toArray());
            assertThat(run.code()).as(option).isEqualTo(2);
            assertThat(run.err()).contains("a file that is not an input");
            assertThat(input).hasContent("a user's own");
        }
    }

    /** Nothing that stands in a folder is replaced without a word, ours or not. */
    @Test
    void foldersAreReplacedOnlyWhenAskedTo(@TempDir Path made) throws Exception {
        Path board = Files.writeString(made.resolve("board.json"), "mine");
        Object[] make = {"make", "--wires", 5000, "-o", made};
        Object[] tables = {
            "export", "--fabric", "fixtures/small/only.fabric.json", "--tables", made
        };
        Object[] imported = {"import", "--tables", "fixtures/tables", "-o", made};
        for (Object[] words : List.of(make, tables, imported)) {
            CommandRun refused = CommandRun.of(words);
            assertThat(refused.code()).as("%s", words).isEqualTo(2);
            assertThat(refused.err())
                    .contains("expected a new or empty folder, or --replace")
                    .contains("found \"board.json\" in it");
            assertThat(board).hasContent("mine");
        }
        Files.delete(board);
        assertThat(CommandRun.of(make).code()).isZero();
        assertThat(CommandRun.of(make).code()).isEqualTo(2);
        Object[] again = {"make", "--wires", 5000, "--seed", 2, "-o", made, "--replace"};
        assertThat(CommandRun.of(again).code()).isZero();
        assertThat(made).isDirectoryNotContaining("glob:**.part");
        Path notes = Files.writeString(made.resolve("notes.txt"), "mine");
        CommandRun refused = CommandRun.of(again);
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("found \"notes.txt\" in it");
        assertThat(notes).hasContent("mine");
    }
}
