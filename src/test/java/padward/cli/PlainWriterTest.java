package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** What a file contains does not steer the terminal on which it is printed. */
class PlainWriterTest {
    private static String written(String text) {
        StringWriter all = new StringWriter();
        PrintWriter out = new PrintWriter(new PlainWriter(all), true);
        out.print(text);
        out.flush();
        for (char c : text.toCharArray()) {
            out.write(c);
        }
        out.flush();
        String once = all.toString().substring(0, all.toString().length() / 2);
        assertThat(all.toString()).as("as a whole and one by one").isEqualTo(once + once);
        return once;
    }

    @Test
    void linesTabsAndLettersOfAllLanguagesStay() {
        String text = "net\tpad\r\nß → x3y4, 日本, \uD83D\uDD27, ‘…’\n";
        assertThat(written(text)).isEqualTo(text);
    }

    @Test
    void controlAndDirectionCharactersAreWrittenOut() {
        assertThat(written("\u001b[2Jred\u009b31m")).isEqualTo("\\u001b[2Jred\\u009b31m");
        assertThat(written("a\u202eb\u2066c\u200fd\u061ce\u0007"))
                .isEqualTo("a\\u202eb\\u2066c\\u200fd\\u061ce\\u0007");
    }

    @Test
    void theCommandLineWritesThroughIt(@TempDir Path folder) throws Exception {
        Path file = Files.writeString(folder.resolve("d.json"), "{\"format\": \"\\u202eabc\"}");
        PrintStream before = System.err;
        ByteArrayOutputStream seen = new ByteArrayOutputStream();
        System.setErr(new PrintStream(seen, true, StandardCharsets.UTF_8));
        try {
            CommandLine line = Padward.commandLine();
            assertThat(Padward.execute(line, "check", file.toString())).isEqualTo(2);
        } finally {
            System.setErr(before);
        }
        assertThat(seen.toString(StandardCharsets.UTF_8))
                .contains("\\u202eabc")
                .doesNotContain("\u202e");
    }
}
