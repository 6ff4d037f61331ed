package padward.docs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import padward.cli.Padward;
import picocli.CommandLine;

/** The README's table of commands is the program's. */
class ReadmeTest {
    private static final Pattern ROW = Pattern.compile("(?m)^\\| `([a-z-]+) ?([^`]*)` \\|");
    private static final Pattern OPTION = Pattern.compile("(?<![\\w-])--?[a-z][a-z-]*");

    private final Map<String, CommandLine> commands = Padward.commandLine().getSubcommands();
    private final List<MatchResult> rows;

    ReadmeTest() throws Exception {
        rows = ROW.matcher(Files.readString(Path.of("README.md"))).results().toList();
    }

    @Test
    void everyCommandHasItsRow() {
        assertThat(rows.stream().map(r -> r.group(1)).distinct())
                .containsExactlyInAnyOrderElementsOf(commands.keySet());
    }

    @Test
    void everyOptionThatARowNamesIsThere() {
        for (MatchResult row : rows) {
            CommandLine command = commands.get(row.group(1));
            List<String> there =
                    command.getCommandSpec().options().stream()
                            .flatMap(o -> Arrays.stream(o.names()))
                            .toList();
            assertThat(OPTION.matcher(row.group(2)).results().map(MatchResult::group))
                    .as(row.group())
                    .isSubsetOf(there);
        }
    }

    @Test
    void everyHelpHasAnExample() {
        commands.forEach(
                (name, command) ->
                        assertThat(PaperCommand.footer(command))
                                .as(name)
                                .contains("  padward " + name));
    }
}
