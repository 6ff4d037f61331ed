package padward.cli.manners;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.api.Test;

/** Long lines on a terminal. */
class WrappingWriterTest {
    private static String wrapped(String... lines) {
        StringWriter all = new StringWriter();
        try (PrintWriter out = new PrintWriter(new WrappingWriter(all, 20))) {
            for (String line : lines) {
                out.print(line.substring(0, line.length() / 2));
                out.print(line.substring(line.length() / 2));
                out.println();
            }
            out.print("end");
        }
        return all.toString().replace("\r", "");
    }

    @Test
    void proseBreaksBetweenWordsAndKeepsItsIndentation() {
        assertThat(wrapped("a b", "  one two three four five six"))
                .isEqualTo("a b\n  one two three four\n  five six\nend");
    }

    @Test
    void whatFitsStays() {
        assertThat(wrapped("exactly twenty chars")).isEqualTo("exactly twenty chars\nend");
    }

    @Test
    void tablesAndLongWordsStay() {
        String row = "x1y2/pad[0]  J1.2  open  3.980 ns";
        assertThat(wrapped(row, "pump/level/sample[1]/and/more and"))
                .isEqualTo(row + "\npump/level/sample[1]/and/more and\nend");
    }
}
