package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Many questions in one run. */
class AskAllTest {
    private static final Path DESIGN = Path.of("fixtures/small/only.design.json");

    @TempDir private Path folder;

    private Path questions(String rows) throws Exception {
        return Files.writeString(folder.resolve("questions.csv"), rows);
    }

    @Test
    void eachAnswerIsThatOfAsk() throws Exception {
        List<List<String>> asked =
                List.of(
                        List.of("pump/level/sample[1]", "J2.1"),
                        List.of("pump/level/sample[1]", "J1.3"),
                        List.of("alarm/beep", "D7"));
        StringBuilder rows = new StringBuilder("net,pad\n");
        asked.forEach(q -> rows.append(String.join(",", q)).append('\n'));
        CommandRun all =
                CommandRun.of("ask-all", "-d", DESIGN, "-q", questions(rows.toString()), "--json");
        JsonArray answers = all.json().getAsJsonArray("answers");
        assertThat(answers).hasSameSizeAs(asked);
        for (int i = 0; i < asked.size(); i++) {
            CommandRun one =
                    CommandRun.of(
                            "ask",
                            "-d",
                            DESIGN,
                            "-n",
                            asked.get(i).get(0),
                            "-p",
                            asked.get(i).get(1),
                            "--json");
            assertThat(answers.get(i)).isEqualTo(one.json());
        }
        assertThat(all.code()).isEqualTo(1);
    }

    @Test
    void theTableHasARowForEach() throws Exception {
        CommandRun run =
                CommandRun.of(
                        "ask-all",
                        "-d",
                        DESIGN,
                        "-q",
                        questions("pad,net\nJ1.2,pump/level/sample[1]\n"));
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("pump/level/sample[1]", "Open");
    }

    @Test
    void aWrongNameIsReportedWithItsRowBeforeAnythingIsAnswered() throws Exception {
        Path table = questions("net,pad\npump/level/sample[1],J2.1\npump/level/smaple[1],J2.1\n");
        CommandRun run = CommandRun.of("ask-all", "-d", DESIGN, "-q", table);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.out()).isEmpty();
        assertThat(run.err())
                .contains("questions.csv, at row 3, column net")
                .contains("pump/level/sample[1]");
        CommandRun pad =
                CommandRun.of(
                        "ask-all",
                        "-d",
                        DESIGN,
                        "-q",
                        questions("net,pad\npump/level/sample[1],J9.9\n"));
        assertThat(pad.err()).contains("row 2, column pad");
    }

    @Test
    void aTableWithoutRowsOrColumnsIsRefused() throws Exception {
        assertThat(CommandRun.of("ask-all", "-d", DESIGN, "-q", questions("net,pad\n")).err())
                .contains("a row for each question");
        assertThat(CommandRun.of("ask-all", "-d", DESIGN, "-q", questions("net\nclk12\n")).err())
                .contains("a column \"pad\"");
    }
}
