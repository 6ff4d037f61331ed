package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** The commands {@code lesson} and {@code exercise}, run as a user runs them. */
class LessonCommandsTest {
    @TempDir private Path folder;

    private record Run(int code, String out, String err) {}

    private Run run(String... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        List<String> all = new ArrayList<>(List.of(words));
        all.addAll(List.of("--learner", "anna", "--records", folder.resolve("records").toString()));
        return new Run(line.execute(all.toArray(new String[0])), out.toString(), err.toString());
    }

    @Test
    void lessonsAreListedAndShown() {
        Run list = run("lesson");
        assertThat(list.code()).isZero();
        assertThat(list.out()).contains("io-register").contains("not started").contains("anna");
        Run one = run("lesson", "4");
        assertThat(one.out())
                .contains("Lesson 4: When the IO register blocks a pad")
                .contains("Why: ");
        assertThat(one.out()).isEqualTo(run("lesson", "io-register").out());
        Run wrong = run("lesson", "io-registr");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("io-register");
    }

    @Test
    void progressIsSummarisedAndReset() throws Exception {
        assertThat(run("exercise", "--kind", "delay", "--seed", "42", "--answer", "4.75").code())
                .isZero();
        assertThat(run("exercise", "--kind", "delay", "--seed", "42", "--answer", "4").code())
                .isEqualTo(1);
        assertThat(run("lesson", "--summary").out()).contains("Estimate the delay. 1 of 2 right");
        Path page = folder.resolve("anna.html");
        assertThat(run("lesson", "--summary", "-o", page.toString()).code()).isZero();
        var html = Jsoup.parse(Files.readString(page));
        assertThat(html.select("#lessons tr")).hasSize(10);
        assertThat(html.select("#exercises").text()).contains("1 of 2 right");
        assertThat(run("lesson", "--reset").code()).isZero();
        assertThat(run("lesson", "--summary").out()).contains("Estimate the delay. none answered");
    }

    @Test
    void theSameSeedAsksTheSameQuestionAndTheKeyShowsItsAnswer() {
        for (String kind : List.of("site", "pad", "delay")) {
            String[] words = {
                "exercise", "--kind", kind, "--difficulty", "medium", "--seed", "7", "--key"
            };
            Run once = run(words);
            assertThat(once.code()).isZero();
            assertThat(run(words).out()).isEqualTo(once.out());
            String key = once.out().replaceAll("(?s).*Answer: (\\S+?)( ns)?\\. .*", "$1");
            Run answered =
                    run(
                            "exercise",
                            "--kind",
                            kind,
                            "--difficulty",
                            "medium",
                            "--seed",
                            "7",
                            "--answer",
                            key);
            assertThat(answered.code()).as(once.out()).isZero();
            assertThat(answered.out()).startsWith("Right");
        }
    }

    @Test
    void badInputIsOneLineAndStatusTwo() {
        assertThat(run("exercise", "--answer", "1").code()).isEqualTo(2);
        assertThat(run("exercise", "--count", "0").err()).contains("1 to 200");
        assertThat(run("exercise", "--seed", "1", "--answer", "seven").err())
                .contains("a number from 1 to 3");
        assertThat(run("exercise", "--kind", "colour").code()).isEqualTo(2);
        assertThat(run("lesson", "--from", folder.resolve("nowhere").toString()).err())
                .contains("a folder of lessons");
        assertThat(run("lesson", "-o", "x.html").code()).isEqualTo(2);
    }

    /** What is written must be read again: a name that cannot be is not taken. */
    @Test
    void aLearnersNameMustBePrintable() {
        for (String name : List.of("an\nna", "", "\u007f", "a".repeat(81))) {
            CommandRun run =
                    CommandRun.of(
                            "exercise",
                            "--seed",
                            42,
                            "--answer",
                            1,
                            "--learner",
                            name,
                            "--records",
                            folder);
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.err()).contains("a name of 1 to 80 printable characters");
            assertThat(run.err().strip()).doesNotContain("\n");
        }
        assertThat(folder).isEmptyDirectory();
    }
}
