package padward.format;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.text.AnswerText;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.format.design.BoardWriter;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;

/**
 * What is written and read again is the same; a pattern written out answers as the pattern does.
 */
class RoundTripTest {
    private static final Path SMALL = Path.of("fixtures/small");

    @ParameterizedTest
    @ValueSource(strings = {"only", "around"})
    void anExpandedPatternGivesTheSameAnswers(String name, @TempDir Path folder) throws Exception {
        Fabric pattern = FabricReader.read(SMALL.resolve(name + ".fabric.json"), Progress.NONE);
        FabricWriter.write(pattern, folder.resolve("explicit.json.gz"));
        Design onPattern = DesignReader.read(SMALL.resolve(name + ".design.json"), Progress.NONE);
        BoardWriter.write(onPattern.board(), pattern, folder.resolve("board.json"));
        Path moved = folder.resolve("design.json");
        DesignWriter.write(onPattern, moved, "explicit.json.gz", "board.json");
        Design onExplicit = DesignReader.read(moved, Progress.NONE);
        assertThat(onExplicit.fabric().vertexCount()).isEqualTo(pattern.vertexCount());
        int compared = 0;
        for (Net net : onPattern.nets()) {
            for (int pad = 0; pad < pattern.pads().size(); pad++) {
                Answer one = ask(onPattern, net.name(), pattern.pads().get(pad).name());
                Answer other = ask(onExplicit, net.name(), pattern.pads().get(pad).name());
                assertThat(AnswerText.word(other)).isEqualTo(AnswerText.word(one));
                if (one instanceof Answer.FreeRoute a && other instanceof Answer.FreeRoute b) {
                    assertThat(b.route().total().slowPs()).isEqualTo(a.route().total().slowPs());
                    compared++;
                }
            }
        }
        assertThat(compared).isPositive();
    }

    private static Answer ask(Design design, String net, String pad) {
        int index = 0;
        while (!design.fabric().pads().get(index).name().equals(pad)) {
            index++;
        }
        return Asker.ask(
                new Question(design, design.findNet(net).orElseThrow(), index, Corner.SLOW),
                Progress.NONE);
    }

    @Test
    void aDesignWrittenAndReadIsTheSame(@TempDir Path folder) throws Exception {
        Path file = Path.of("fixtures/workbench/design.json.gz");
        Design design = DesignReader.read(file, Progress.NONE);
        assertThat(design.nets()).hasSizeGreaterThan(1000);
        String fabric = Path.of("fixtures/workbench/fabric.json.gz").toAbsolutePath().toString();
        Files.copy(Path.of(fabric), folder.resolve("fabric.json.gz"));
        Files.copy(Path.of("fixtures/workbench/board.json"), folder.resolve("board.json"));
        Path copy = folder.resolve("design.json.gz");
        DesignWriter.write(design, copy, "fabric.json.gz", "board.json");
        assertThat(copy).hasSameBinaryContentAs(file);
        Design again = DesignReader.read(copy, Progress.NONE);
        assertThat(again.nets()).isEqualTo(design.nets());
        assertThat(again.cells()).isEqualTo(design.cells());
        assertThat(again.ports()).isEqualTo(design.ports());
        assertThat(again.board()).isEqualTo(design.board());
    }
}
