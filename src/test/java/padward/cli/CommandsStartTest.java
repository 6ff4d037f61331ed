package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;
import picocli.CommandLine;

/** A command line made for one call behaves as the whole one. */
class CommandsStartTest {
    private static String printed(CommandLine line, String... words) {
        StringWriter text = new StringWriter();
        line.setOut(new PrintWriter(text, true));
        line.setErr(new PrintWriter(text, true));
        return line.execute(words) + " " + text;
    }

    @Test
    void commandsAreListedUnderTheirNames() {
        assertThat(Padward.commandLine().getSubcommands().keySet())
                .containsExactlyElementsOf(Commands.names());
    }

    @Test
    void eachCommandAloneIsAsAmongTheOthers() {
        for (String name : Commands.names()) {
            for (String[] words : new String[][] {{name, "--help"}, {name, "--no-such"}}) {
                CommandLine alone = Padward.commandLine(words);
                // The command that explains the others needs them all.
                assertThat(alone.getSubcommands())
                        .hasSize(name.equals("help") ? Commands.names().size() : 1);
                assertThat(printed(alone, words))
                        .as(name)
                        .isEqualTo(printed(Padward.commandLine(), words));
            }
        }
    }

    @Test
    void anyOtherWordIsLookedForAmongAll() {
        for (String[] words : new String[][] {{"aks"}, {"--help"}, {"--version"}, {}}) {
            assertThat(printed(Padward.commandLine(words), words))
                    .isEqualTo(printed(Padward.commandLine(), words));
        }
    }
}
