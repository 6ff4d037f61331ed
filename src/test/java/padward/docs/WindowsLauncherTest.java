package padward.docs;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/**
 * The launcher for Windows by the documented rules of its command processor, as far as they can be
 * checked elsewhere: a name with a blank or {@code &} in it must be in quotation marks wherever it
 * is put in, and labels are found only where lines end as there.
 */
class WindowsLauncherTest {
    private static final Path FILE = Path.of("src/launcher/padward.cmd");
    private static final Pattern PUT_IN = Pattern.compile("%~dp0|%~1|%[A-Za-z_]+%");

    private static List<String> lines() throws Exception {
        return Files.readString(FILE)
                .lines()
                .filter(l -> !l.startsWith("rem "))
                // Its value without the quotation marks in it.
                .map(l -> l.replace(":\"=%", "%"))
                .toList();
    }

    @Test
    void allLinesEndAsOnWindows() throws Exception {
        String text = Files.readString(FILE);
        assertThat(text.replace("\r\n", "")).doesNotContain("\n").doesNotContain("\r");
    }

    @Test
    void whatIsPutInIsInQuotationMarks() throws Exception {
        for (String line : lines()) {
            for (MatchResult put : PUT_IN.matcher(line).results().toList()) {
                long before = line.substring(0, put.start()).chars().filter(c -> c == '"').count();
                assertThat(before % 2 == 1 || put.group().equals("%ERRORLEVEL%")).as(line).isTrue();
            }
            assertThat(line.chars().filter(c -> c == '"').count() % 2).as(line).isZero();
        }
    }

    /** What a block sets is put in before the block runs: it must not read it itself. */
    @Test
    void noBlockReadsWhatItSets() throws Exception {
        int depth = 0;
        for (String line : lines()) {
            if (depth > 0 && line.contains("set \"")) {
                assertThat(line).contains("set \"share=").doesNotContain("%share%");
            }
            String bare = line.replaceAll("\"[^\"]*\"", "");
            depth += bare.chars().map(c -> c == '(' ? 1 : c == ')' ? -1 : 0).sum();
        }
        assertThat(depth).isZero();
    }

    /** Without a value, {@code %NAME:"=%} would stay as it is written. */
    @Test
    void marksAreTakenOutOnlyOfWhatHasAValue() throws Exception {
        String text = Files.readString(FILE);
        assertThat(text.indexOf("if not defined JAVA_HOME goto"))
                .isNotNegative()
                .isLessThan(text.indexOf("%JAVA_HOME:\"=%"));
    }

    @Test
    void itJumpsToLabelsThatAreThereAndEndsWithTheProgramsStatus() throws Exception {
        List<String> lines = lines();
        lines.stream()
                .filter(l -> l.contains(" goto "))
                .map(l -> ":" + l.substring(l.indexOf("goto ") + 5))
                .forEach(label -> assertThat(lines).contains(label));
        assertThat(lines.get(lines.size() - 1)).isEqualTo("exit /b %ERRORLEVEL%");
        assertThat(lines.get(lines.size() - 2)).startsWith("\"%java%\"").endsWith(" %*");
    }
}
