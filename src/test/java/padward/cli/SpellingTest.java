package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What may be typed for nets, pads, commands and options, and what is offered for the rest. */
class SpellingTest {
    private static final Path DESIGN = Path.of("fixtures/small/only.design.json");
    private static final String SAMPLE = "pump/level/sample[1]";

    @TempDir private Path folder;

    private static CommandRun ask(String net, String pad, Object... more) {
        Object[] words = new Object[7 + more.length];
        System.arraycopy(new Object[] {"ask", "-d", DESIGN, "-n", net, "-p", pad}, 0, words, 0, 7);
        System.arraycopy(more, 0, words, 7, more.length);
        return CommandRun.of(words);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "J1.2",
                "J1-2",
                "j1:2",
                "J1/2",
                "J1 pin 2",
                "header J1 pin 2",
                "Header J1-2",
                "pin E2",
                "pin E2 (DBG1)",
                "e2",
                "pad x7y2/pad[1]",
                "ball E2"
            })
    void aPadHasManySpellings(String pad) {
        CommandRun run = ask(SAMPLE, pad, "--json");
        assertThat(run.err()).isEmpty();
        assertThat(run.json().get("packagePin").getAsString()).isEqualTo("E2");
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "net pump/level/sample[1]",
                "pump/level/sample[1].out",
                "PUMP/level/sample[1].OUT",
                "level/sample[1].out",
                "the out of register pump/level/sample[1]",
                "out of cell pump/level/sample[1]"
            })
    void aNetCanBeNamedByItsPins(String net) {
        CommandRun run = ask(net, "J1.2", "--json");
        assertThat(run.err()).isEmpty();
        assertThat(run.json().get("net").getAsString()).isEqualTo(SAMPLE);
    }

    @Test
    void aPortNamesItsNet() {
        assertThat(ask("port motor", "D8").out()).contains("pump/run/motor_out");
    }

    @Test
    void aTableGivesNetsOtherNames() throws Exception {
        Path names =
                Files.writeString(
                        folder.resolve("names.csv"),
                        "name,net\nlevel_q(1)," + SAMPLE + "\nlevel_d(1),level/sample[1].out\n");
        for (String name : new String[] {"level_q(1)", "level_d(1)"}) {
            CommandRun run = ask(name, "J1.2", "--names", names);
            assertThat(run.err()).isEmpty();
            assertThat(run.out()).startsWith("Open: " + SAMPLE);
        }
        Files.writeString(names, "name,net\na,b\na,c\n");
        assertThat(CommandRun.of("nets", "-d", DESIGN, "--names", names).err())
                .contains("row 3, column name: expected each name once");
    }

    @Test
    void aHeaderAloneOffersItsPins() {
        assertThat(ask(SAMPLE, "J1").err()).contains("the nearest names are", "“J1.1”", "“J1.4”");
        CommandRun group =
                CommandRun.of("bus", "-d", DESIGN, "-n", SAMPLE, "-p", "header j1 pin 2,header j1");
        assertThat(group.err()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "aks -d x, “aks”; did you mean “ask”?",
        "ask --desing x -n a -p b, “--desing”; did you mean “--design”?",
        "ask --design x --nett=a -p b, “--nett”; did you mean “--net”?",
        "nets -d x --jsno, “--jsno”; did you mean “--json”?",
        "pads FILE -d x, 'expected options, found the word “FILE”'",
        "check, Missing required parameter"
    })
    void theMisspeltWordIsNamed(String words, String expected) {
        CommandRun run = CommandRun.of((Object[]) words.split(" "));
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(expected).contains("--help");
    }

    @Test
    void caseDoesNotCountForWhatIsNearest() {
        assertThat(ask("PUMP/LEVEL/SMAPLE[1]", "J1.2").err())
                .contains("the nearest name is “" + SAMPLE + "”");
    }
}
