package padward.format.tables;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.base.TemporaryName;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.text.AnswerText;
import padward.design.Design;
import padward.design.Net;
import padward.design.NetLock;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.example.HandMade;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.Unusable;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.design.ImportedFiles;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.route.search.SearchEngineKind;
import padward.synth.DesignMaker;

/** What is exported as tables and imported again is the same. */
class TableRoundTripTest {
    private static TableImport.Sound read(Path folder) throws Exception {
        TableImport.Result result = TableImport.read(folder, 20, Progress.NONE);
        if (result instanceof TableImport.Faulty faulty) {
            throw new AssertionError(faulty.shown());
        }
        return (TableImport.Sound) result;
    }

    private static void assertSameFiles(Path one, Path other) throws Exception {
        try (Stream<Path> files = Files.list(one)) {
            List<Path> all = files.sorted().toList();
            assertThat(all).isNotEmpty();
            for (Path file : all) {
                assertThat(other.resolve(file.getFileName())).hasSameBinaryContentAs(file);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"only", "around"})
    void tablesWrittenReadAndWrittenAreTheSameBytes(String name, @TempDir Path folder)
            throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/small", name + ".design.json"), Progress.NONE);
        Path first = folder.resolve("first");
        Path second = folder.resolve("second");
        TableExport.write(design, first, false, Progress.NONE);
        Design again = read(first).design().orElseThrow();
        TableExport.write(again, second, false, Progress.NONE);
        assertSameFiles(first, second);
        assertThat(again.cells()).hasSameSizeAs(design.cells());
        assertThat(again.fabric().info()).isEqualTo(design.fabric().info());
        assertThat(again.board()).isEqualTo(design.board());
    }

    @Test
    void everyMemberOfAFabricIsPreserved(@TempDir Path folder) throws Exception {
        String text = Files.readString(Path.of("fixtures/small/only.fabric.json"));
        int setting = text.indexOf("\"delay_ps\"", text.indexOf("\"settings\""));
        String output =
                "\"output\": {\"rated_pf\": 5.5, \"rise_ps\": [900, 1600], \"ohms\": [25, 45],"
                        + " \"most_mhz\": 150}, ";
        text = text.substring(0, setting) + output + text.substring(setting);
        String electrical =
                "\"electrical\": {\"wires\": [{\"wire\": \"run1_e\", \"ohms\": [40, 60],"
                        + " \"femtofarads\": [30, 45]}], \"switches\": [{\"from\": \"run1_e\","
                        + " \"to\": \"*\", \"buffered\": false, \"ohms\": [700, 1200],"
                        + " \"femtofarads\": [2, 3]}]}, ";
        text = text.replace("\"clock\": \"clk\"", "\"clock\": \"clk\", \"enable\": \"in[1]\"");
        text = text.replace("\"digits\"", "\"prefix\": \"16'h\", \"digits\"");
        int banks = text.indexOf("\"banks\"");
        text = text.substring(0, banks) + electrical + text.substring(banks);
        Path file = Files.writeString(folder.resolve("f.json"), text);
        Fabric fabric = FabricReader.read(file, Progress.NONE);
        Path tables = folder.resolve("tables");
        TableExport.write(fabric, tables, false, Progress.NONE);
        Fabric again = read(tables).fabric();
        assertThat(again.info()).isEqualTo(fabric.info());
        Path explicit = folder.resolve("explicit.json");
        FabricWriter.write(again, explicit);
        Fabric fromJson = FabricReader.read(explicit, Progress.NONE);
        assertThat(fromJson.info()).isEqualTo(fabric.info());
        FabricWriter.write(fromJson, folder.resolve("explicit2.json"));
        assertThat(folder.resolve("explicit2.json")).hasSameBinaryContentAs(explicit);
    }

    @Test
    void whatIsLockedOrUnusableIsPreserved(@TempDir Path folder) throws Exception {
        Design design =
                new HandMade()
                        .wires("w0 w1")
                        .site("S0", "", "o")
                        .site("S1", "i", "")
                        .site("S2", "i", "")
                        .chain("S0.o w0 S1.i")
                        .pad("P")
                        .chain("w0 w1 P")
                        .cell("a", "S0")
                        .cell("b", "S1")
                        .net("n", "a.o", "b.i", "S0.o w0 S1.i")
                        .unusable("w1 S2")
                        .lockCell("b")
                        .lockNet("n", NetLock.WHOLE)
                        .design();
        Path tables = folder.resolve("tables");
        TableExport.write(design, tables, false, Progress.NONE);
        Design again = read(tables).design().orElseThrow();
        Path json = folder.resolve("f.json");
        FabricWriter.write(again.fabric(), json);
        Path file = folder.resolve("d.json");
        DesignWriter.write(again, file, "f.json", "");
        Design fromJson = DesignReader.read(file, Progress.NONE);
        for (Design one : List.of(again, fromJson)) {
            assertThat(one.cells().get(1).locked()).isTrue();
            assertThat(one.cells().get(0).locked()).isFalse();
            assertThat(one.nets().get(0).lock()).isEqualTo(NetLock.WHOLE);
            Unusable unusable = one.fabric().unusable();
            assertThat(unusable.isVertex(one.fabric().findVertex("w1"))).isTrue();
            assertThat(unusable.isVertex(one.fabric().findVertex("S2.i"))).isTrue();
            assertThat(unusable.isSite(one.fabric().findSite("S2"))).isTrue();
            assertThat(unusable.vertices().cardinality()).isEqualTo(2);
        }
        Path second = folder.resolve("second");
        TableExport.write(fromJson, second, false, Progress.NONE);
        assertSameFiles(tables, second);
    }

    @Test
    void requiredTimesOfNetsAndSinksArePreserved(@TempDir Path folder) throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        List<Net> nets = new ArrayList<>();
        for (Net net : design.nets()) {
            Map<Terminal, Integer> own = new HashMap<>();
            net.sinks().forEach(s -> own.put(s, 1000 + own.size()));
            nets.add(
                    new Net(
                            net.id(),
                            net.name(),
                            net.driver(),
                            net.sinks(),
                            net.route(),
                            net.clock(),
                            OptionalInt.of(net.id()),
                            own));
        }
        Design timed =
                new Design(
                        "timed",
                        "",
                        design.fabric(),
                        Board.UNKNOWN,
                        List.copyOf(design.cells()),
                        nets,
                        List.copyOf(design.ports()));
        Path tables = folder.resolve("tables");
        TableExport.write(timed, tables, false, Progress.NONE);
        Design again = read(tables).design().orElseThrow();
        for (int n = 0; n < nets.size(); n++) {
            assertThat(again.nets().get(n).requiredPs()).isEqualTo(nets.get(n).requiredPs());
            assertThat(again.nets().get(n).requiredAtPs()).isEqualTo(nets.get(n).requiredAtPs());
        }
    }

    /** As a kill between the two moves of an export leaves it. */
    @Test
    void aFolderWhoseReplacementWasInterruptedIsReported(@TempDir Path folder) throws Exception {
        Path tables = folder.resolve("tables");
        Path old = Files.createDirectory(TemporaryName.OLD.nextTo(tables));
        assertThatThrownBy(() -> read(tables))
                .hasMessageContaining("no such folder; a program that was replacing it was stopped")
                .hasMessageContaining(old.toString());
    }

    @Test
    void filesFromTablesAreTheSameBytesByEitherRoute(@TempDir Path folder) throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        Path tables = folder.resolve("tables");
        TableExport.write(design, tables, true, Progress.NONE);
        TableImport.Sound sound = read(tables);
        Path json = folder.resolve("json");
        ImportedFiles.write(sound.fabric(), sound.board(), sound.design(), json);
        Design fromJson = DesignReader.read(json.resolve("design.json.gz"), Progress.NONE);
        Path other = folder.resolve("other");
        TableExport.write(fromJson, other, true, Progress.NONE);
        assertSameFiles(tables, other);
        ImportedFiles.write(
                fromJson.fabric(), fromJson.board(), Optional.of(fromJson), folder.resolve("j2"));
        assertSameFiles(json, folder.resolve("j2"));
    }

    @Test
    void aMadeDesignAnswersTheSame(@TempDir Path folder) throws Exception {
        compareAnswers(DesignMaker.make(6000, 3, 0.5, Progress.NONE).design(), folder, 60);
    }

    @Test
    @Tag("slow")
    void theWorkbenchAnswersFiveHundredQuestionsTheSame(@TempDir Path folder) throws Exception {
        Path file = Path.of("fixtures/workbench/design.json.gz");
        compareAnswers(DesignReader.read(file, Progress.NONE), folder, 500);
    }

    private static void compareAnswers(Design before, Path folder, int questions) throws Exception {
        Path tables = folder.resolve("tables");
        TableExport.write(before, tables, false, Progress.NONE);
        Design after = read(tables).design().orElseThrow();
        Random random = new Random(500);
        Asker askBefore = new Asker(before.fabric(), SearchEngineKind.OWN);
        Asker askAfter = new Asker(after.fabric(), SearchEngineKind.OWN);
        int open = 0;
        for (int i = 0; i < questions; i++) {
            Net net = before.nets().get(random.nextInt(before.nets().size()));
            int pad = random.nextInt(before.fabric().pads().size());
            Answer one = askBefore.answer(question(before, net.name(), pad), Progress.NONE);
            int same = indexOf(after, before.fabric().pads().get(pad));
            Answer other = askAfter.answer(question(after, net.name(), same), Progress.NONE);
            String text = net.name() + " to pad " + pad;
            assertThat(AnswerText.word(other)).as(text).isEqualTo(AnswerText.word(one));
            if (one instanceof Answer.FreeRoute a && other instanceof Answer.FreeRoute b) {
                assertThat(b.route().total().slowPs())
                        .as(text)
                        .isEqualTo(a.route().total().slowPs());
                open++;
            }
            if (one instanceof Answer.Blocked a && other instanceof Answer.Blocked b) {
                assertThat(b.obstacles()).as(text).hasSameSizeAs(a.obstacles());
            }
            if (one instanceof Answer.NoRoute a && other instanceof Answer.NoRoute b) {
                assertThat(b.reason()).as(text).isEqualTo(a.reason());
            }
        }
        assertThat(open).isPositive();
    }

    private static int indexOf(Design design, Pad pad) {
        List<String> names = design.fabric().pads().stream().map(Pad::name).toList();
        return names.indexOf(pad.name());
    }

    private static Question question(Design design, String net, int pad) {
        return new Question(design, design.findNet(net).orElseThrow(), pad, Corner.SLOW);
    }
}
