package padward.cli.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.BadInput;
import padward.base.Progress;
import padward.design.Design;
import padward.format.design.DesignReader;
import picocli.CommandLine;

/** What the options of a watch circuit mean for a design. */
class CircuitOptionTest {
    @TempDir private Path folder;

    private static CircuitOption option(String... words) {
        CircuitOption option = new CircuitOption();
        new CommandLine(option).setCaseInsensitiveEnumValuesAllowed(true).parseArgs(words);
        return option;
    }

    /** The small example, with its port “motor” of another name. */
    private Design withPort(String name) throws Exception {
        for (String file : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Files.copy(Path.of("fixtures/small", file), folder.resolve(file));
        }
        Path design = folder.resolve("only.design.json");
        Files.writeString(
                design, Files.readString(design).replace("\"motor\"", "\"" + name + "\""));
        return DesignReader.read(design, Progress.NONE);
    }

    @Test
    void theSmallerVariantHasTheSameClock() throws Exception {
        Design design = withPort("motor");
        CircuitOption clocked = option("trigger", "--when", "rising(hold)", "--clock", "hold");
        assertThatThrownBy(() -> clocked.request(design.fabric()).circuit(design))
                .isInstanceOf(BadInput.class);
        assertThatThrownBy(
                        () ->
                                clocked.request(design.fabric())
                                        .smaller()
                                        .orElseThrow()
                                        .circuit(design))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("--clock");
    }

    @Test
    void aNetSteersWhereAnOutputPortHasItsName() throws Exception {
        Design design = withPort("pump/run/hold");
        CircuitOption option =
                option("select", "--nets", "pump/level/sample*", "--by", "pump/run/hold");
        assertThat(option.request(design.fabric()).circuit(design).function())
                .contains("stands at pump/run/hold,");
    }

    @Test
    void aPadThatCannotBeReadAndIsNoNetIsAFault() throws Exception {
        Design design = withPort("motor");
        CircuitOption option = option("select", "--nets", "pump/level/sample*", "--by", "motor");
        assertThatThrownBy(() -> option.request(design.fabric()).circuit(design))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("which the design drives");
    }
}
