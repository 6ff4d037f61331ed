package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.Arrays;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.OwnerLock;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.format.design.DesignReader;
import padward.format.design.Digest;
import picocli.CommandLine;

/** Keeping, applying and undoing, run as a user runs them. */
class LedgerCommandsTest {
    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    private record Run(int code, String out, String err) {}

    @BeforeEach
    void copyExample() throws Exception {
        for (String name : new String[] {"only.design.json", "only.fabric.json", "board.json"}) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        design = folder.resolve("only.design.json");
        ledger = folder.resolve("bench.json");
    }

    private static Run run(String... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        return new Run(line.execute(words), out.toString(), err.toString());
    }

    private Run keep(String net, String pad) {
        return run(
                "keep",
                "--design",
                design.toString(),
                "--net",
                net,
                "--pad",
                pad,
                "--ledger",
                ledger.toString(),
                "--who",
                "tester",
                "--accept",
                "drives,follows,reads",
                "--note",
                "a note");
    }

    private Run apply(Path output) {
        return run(
                "apply",
                "--design",
                design.toString(),
                "--ledger",
                ledger.toString(),
                "-o",
                output.toString());
    }

    private Run undo(String... more) {
        String[] words = {"undo", "--design", design.toString(), "--ledger", ledger.toString()};
        String[] all = Arrays.copyOf(words, words.length + more.length);
        System.arraycopy(more, 0, all, words.length, more.length);
        return run(all);
    }

    private static Design read(Path file) throws BadInput {
        return DesignReader.read(file, Progress.NONE);
    }

    @Test
    void anAppliedEntryPutsTheNetOnThePadAndChangesNothingElse() throws Exception {
        byte[] original = Files.readAllBytes(design);
        assertThat(keep("pump/level/sample[1]", "J1.3").code()).isZero();
        Path changed = folder.resolve("changed.json");
        Run applied = apply(changed);
        assertThat(applied.code()).isZero();
        assertThat(applied.out())
                .contains("Nets gone: pump/run/motor_out (entry 1)")
                .contains("Cells gone: pump/run/motor_out")
                .contains("nets keep every wire (")
                .contains("and every delay (");
        Design before = read(design);
        Design after = read(changed);
        Net net = after.findNet("pump/level/sample[1]").orElseThrow();
        assertThat(net.sinks()).hasSize(2);
        assertThat(after.ports()).extracting(p -> p.name()).contains("out_J1.3");
        for (String name : new String[] {"alarm/beep", "float_hi", "pump/run/decide"}) {
            assertThat(after.findNet(name).orElseThrow().route())
                    .isEqualTo(before.findNet(name).orElseThrow().route());
        }
        assertThat(Files.readAllBytes(design)).isEqualTo(original);
    }

    @Test
    void undoingEverythingRestoresTheExactBytes() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        keep("pump/level/sample[0]", "x0y5/pad[0]");
        assertThat(undo("--entry", "1").out()).contains("1 entry remains");
        assertThat(undo().out()).contains("The ledger is empty");
        Path back = folder.resolve("back.json");
        assertThat(apply(back).code()).isZero();
        assertThat(Files.readAllBytes(back)).isEqualTo(Files.readAllBytes(design));
        assertThat(undo().code()).isEqualTo(2);
    }

    @Test
    void anEntryThatAnotherDependsOnIsNotUndone() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        byte[] kept = Files.readAllBytes(ledger);
        // The pad now belongs to the net; bringing out another one there disconnects it again.
        Run second = keep("pump/level/sample[0]", "J1.3");
        assertThat(second.code()).isZero();
        Run refused = undo("--entry", "1");
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("an entry that no other depends on").contains("entry 2");
        assertThat(undo().code()).isZero();
        assertThat(Files.readAllBytes(ledger)).isEqualTo(kept);
    }

    @Test
    void dependentEntriesCanBeUndoneTogether() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        keep("pump/level/sample[0]", "J1.3");
        keep("pump/level/sample[1]", "x0y5/pad[0]");
        Run undone = undo("--entry", "1", "--with-dependents", "--json");
        assertThat(undone.code()).isZero();
        JsonObject told = JsonParser.parseString(undone.out()).getAsJsonObject();
        assertThat(told.get("format").getAsString()).isEqualTo("padward-undone/1");
        assertThat(told.getAsJsonArray("undone")).hasSize(2);
        assertThat(told.get("remaining").getAsInt()).isEqualTo(1);
    }

    /** The entries that remain after an undo start from another state and get new digests. */
    @Test
    void afterAnUndoInTheMiddleTheRestStillApplies() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        keep("pump/level/sample[0]", "x0y5/pad[0]");
        assertThat(undo("--entry", "1").code()).isZero();
        Run applied = apply(folder.resolve("changed.json"));
        assertThat(applied.err()).isEmpty();
        assertThat(applied.code()).isZero();
    }

    /** Every name that is accepted must be readable again. */
    @Test
    void unusualUserNamesAndLongGroupsAreKept() throws Exception {
        String[] words = new String[6 + 2 * 60];
        String[] first = {"bus", "--design", design.toString(), "--pads", "header J1", "--ledger"};
        System.arraycopy(first, 0, words, 0, 6);
        words[6] = ledger.toString();
        words[7] = "--who=two\nlines " + "x".repeat(2000);
        for (int i = 8; i < words.length; i++) {
            words[i] = "--nets=pump/level/sample[" + (i % 2) + "]";
        }
        assertThat(run(words).code()).isZero();
        assertThat(apply(folder.resolve("changed.json")).code()).isZero();
        assertThat(undo().code()).isZero();
    }

    @Test
    void anInputPortIsDisconnectedTogetherWithItsNet() throws Exception {
        assertThat(keep("pump/level/sample[1]", "float_hi").code()).isZero();
        Path changed = folder.resolve("changed.json");
        assertThat(apply(changed).out()).contains("Nets gone: float_hi");
        Design after = read(changed);
        assertThat(after.ports()).extracting(p -> p.name()).doesNotContain("float_hi");
        assertThat(after.findNet("pump/level/sample[1]").orElseThrow().sinks()).hasSize(2);
    }

    @Test
    void inputFilesAreNeverOverwritten() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        for (String name :
                new String[] {"only.design.json", "only.fabric.json", "board.json", "bench.json"}) {
            byte[] before = Files.readAllBytes(folder.resolve(name));
            Run run = apply(folder.resolve(name));
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.err()).contains("a file that is not an input");
            assertThat(Files.readAllBytes(folder.resolve(name))).isEqualTo(before);
        }
        Path fabric = folder.resolve("only.fabric.json");
        assertThat(run("expand", fabric.toString(), "-o", fabric.toString()).code()).isEqualTo(2);
        assertThat(apply(folder.resolve("none/changed.json")).err()).contains("an existing folder");
    }

    @Test
    void anEmptyLedgerAppliedElsewhereCanBeRead() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        undo();
        Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
        for (Path output : new Path[] {elsewhere.resolve("a.json"), folder.resolve("b.json.gz")}) {
            assertThat(apply(output).code()).isZero();
            assertThat(read(output).nets()).hasSize(read(design).nets().size());
        }
    }

    @Test
    void anEntryThatWasTamperedWithIsReported() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        String text = Files.readString(ledger).replace("\"out_J1.3\"", "\"out_J1.4\"");
        Files.writeString(ledger, text);
        Run run = apply(folder.resolve("changed.json"));
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("$.entries[0].after");
    }

    /** A sheet or list of changes for another file would name wires that are not there. */
    @Test
    void aLedgerOfAnotherFileIsNotHandedOver() throws Exception {
        assertThat(keep("pump/level/sample[1]", "J1.3").code()).isZero();
        Path other = folder.resolve("newer.design.json");
        Files.writeString(other, Files.readString(design) + "\n");
        for (String name : new String[] {"out.json", "out.csv", "out.html"}) {
            Path out = folder.resolve(name);
            String command = name.endsWith("html") ? "sheet" : "changes";
            Run run = run(command, "-d", "" + other, "-l", "" + ledger, "-o", "" + out);
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.err())
                    .contains("made on another file, \"only.design.json\"")
                    .contains("--new-ledger");
            assertThat(out).doesNotExist();
        }
    }

    @Test
    void anEntryThatDoesNotGiveWhatItGaveIsNotHandedOver() throws Exception {
        assertThat(keep("pump/level/sample[1]", "J1.3").code()).isZero();
        String text = Files.readString(ledger);
        for (String member : new String[] {"before", "after"}) {
            Files.writeString(
                    ledger, text.replaceAll("(\"" + member + "\": *\")[0-9a-f]{4}", "$10000"));
            Path out = folder.resolve("out.csv");
            for (String command : new String[] {"sheet", "changes"}) {
                Run run = run(command, "-d", "" + design, "-l", "" + ledger, "-o", "" + out);
                assertThat(run.code()).as(command).isEqualTo(2);
                assertThat(run.err()).contains("$.entries[0]." + member);
                assertThat(out).doesNotExist();
            }
        }
    }

    @Test
    void checkReadsAWholeLedger() throws Exception {
        assertThat(keep("pump/level/sample[1]", "J1.3").code()).isZero();
        Run sound = run("check", "" + ledger);
        assertThat(sound.code()).isZero();
        assertThat(sound.out()).contains("ledger of only.design.json, 1 kept change");
        String text = Files.readString(ledger);
        for (String damaged :
                new String[] {
                    text.substring(0, text.length() - 20),
                    text.replace("\"when\"", "\"nonsense\""),
                    text.replace("\"do\"", "\"does\"")
                }) {
            assertThat(damaged).isNotEqualTo(text);
            Files.writeString(ledger, damaged);
            assertThat(run("check", "" + ledger).code()).isEqualTo(2);
        }
    }

    @Test
    void smallMistakesAreReported() {
        assertThat(undo().err()).contains("no such file");
        Run open =
                run(
                        "keep",
                        "--design",
                        design.toString(),
                        "--net",
                        "pump/run/hold",
                        "--pad",
                        "J1.4",
                        "--ledger",
                        ledger.toString(),
                        "--option",
                        "5");
        assertThat(open.code()).isEqualTo(2);
        assertThat(open.err()).contains("the route is open");
        Run none =
                run("bus", "--design", design.toString(), "--nets", "pump/run/hold", "--pads", ",");
        assertThat(none.code()).isEqualTo(2);
        assertThat(none.err()).contains("at least one pad");
    }

    @Test
    void aGroupIsKeptAsOneEntry() throws Exception {
        String[] words = {
            "bus",
            "--design",
            design.toString(),
            "--nets",
            "pump/level/sample[*]",
            "--pads",
            "header J1",
            "--aim",
            "order",
            "--ledger",
            ledger.toString()
        };
        Run run = run(words);
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("Greatest skew at the instrument").contains("J1.1");
        Path changed = folder.resolve("changed.json");
        assertThat(apply(changed).code()).isZero();
        Design after = read(changed);
        for (int bit = 0; bit < 2; bit++) {
            Net net = after.findNet("pump/level/sample[" + bit + "]").orElseThrow();
            assertThat(net.sinks()).hasSize(2);
        }
        assertThat(run(words).out()).contains("already");
        assertThat(undo().out()).contains("The ledger is empty");
        Run wrong = run("bus", "--design", design.toString(), "--nets", "x", "--pads", "header J1");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("“x”");
    }

    @Test
    void aNewerRunIsCheckedEntryByEntry() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        String text = Files.readString(design).replace("pump/run/motor_out", "pump/run/drive_out");
        Files.writeString(design, text);
        Run applied = apply(folder.resolve("changed.json"));
        assertThat(applied.code()).isEqualTo(2);
        assertThat(applied.out()).contains("another run");
        assertThat(applied.err())
                .contains("$.entries[0]")
                .contains("there is no cell pump/run/motor_out")
                .contains("ask again");
        assertThat(keep("pump/level/sample[0]", "J2.1").err()).contains("$.sha256");
    }

    @Test
    void aLedgerInUseIsRefused() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        byte[] kept = Files.readAllBytes(ledger);
        Path lock = folder.resolve("bench.json" + OwnerLock.ENDING);
        try (FileChannel channel =
                        FileChannel.open(
                                lock, StandardOpenOption.CREATE, StandardOpenOption.WRITE);
                var used = channel.lock()) {
            Run run = keep("pump/level/sample[0]", "x0y5/pad[0]");
            assertThat(used.isValid()).isTrue();
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.err()).contains("in use");
        }
        assertThat(Files.readAllBytes(ledger)).isEqualTo(kept);
    }

    @Test
    void aDamagedLedgerGivesOneClearMessage() throws Exception {
        keep("pump/level/sample[1]", "J1.3");
        String text = Files.readString(ledger).replace("disconnect-port", "disconnect-post");
        Files.writeString(ledger, text);
        Run run = undo();
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("disconnect-post").contains("$.entries[0]");
        assertThat(run.err().strip()).doesNotContain("\n");
    }

    /** FIPS 180-4's examples give ba7816bf … 15ad for "abc" (from memory). */
    @Test
    void theDigestMatchesThePublishedExample() throws Exception {
        Path file = folder.resolve("abc");
        Files.writeString(file, "abc");
        assertThat(Digest.of(file))
                .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    }

    /** The library for command lines would read the file and put its words there. */
    @Test
    void aNoteThatBeginsWithAnAtSignIsKeptAsItStands() throws Exception {
        Path file = Files.writeString(folder.resolve("words"), "other words");
        Run kept =
                run(
                        "keep",
                        "--design=" + design,
                        "--net=pump/level/sample[1]",
                        "--pad=J1.3",
                        "--ledger=" + ledger,
                        "--accept=drives,follows,reads",
                        "--note",
                        "@" + file);
        assertThat(kept.code()).isZero();
        assertThat(Files.readString(ledger)).contains("\"@" + file);
    }
}
