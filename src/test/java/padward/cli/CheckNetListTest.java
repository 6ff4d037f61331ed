package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** A board's net list is checked without a chip, a fabric or a table of parts. Invented data. */
class CheckNetListTest {
    @TempDir private Path folder;

    private Path file(String name, String text) throws Exception {
        return Files.writeString(folder.resolve(name), text);
    }

    @ParameterizedTest
    @ValueSource(strings = {"heron-2.ipc", "heron-2.nets.csv"})
    void bothFormsAreCounted(String name) {
        CommandRun run = CommandRun.of("check", Path.of("fixtures/package", name));
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("sound")
                .containsPattern("net list: \\d+ nets, \\d+ pins of \\d+ parts");
    }

    @Test
    void bothFormsOfOneBoardHaveTheSameInThem() {
        String ipc = CommandRun.of("check", "fixtures/package/heron-2.ipc").out();
        String csv = CommandRun.of("check", "fixtures/package/heron-2.nets.csv").out();
        assertThat(ipc.lines().skip(1)).isEqualTo(csv.lines().skip(1).toList());
    }

    @Test
    void whatIsSuspiciousIsNamed() throws Exception {
        Path nets = file("n.csv", "net,part,pin\nA,U1,1\nB,U1,1\nB,U2,5\n");
        CommandRun run = CommandRun.of("check", nets);
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("net list: 2 nets, 2 pins of 2 parts")
                .contains("suspicious: pins on several nets: 1 (U1 pin 1 (A, B))")
                .contains("suspicious: nets with one pin: 1 (A)");
    }

    @Test
    void aTableOfPartsIsCheckedToo() {
        CommandRun run = CommandRun.of("check", "fixtures/package/heron-2.parts.csv");
        assertThat(run.code()).isZero();
        assertThat(run.out()).containsPattern("table of parts: \\d+ parts or pins, \\d+ header");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "a.ipc | 327N                U1    A1 | line 1 column 27",
                "b.txt | C  a board without an end | line 2 column 1",
                "c.csv | net,part,pin\\nN,,1 | row 2",
                "d.csv | part,direction\\nU7,inwards | row 2",
                "e.csv | name,kind\\nw,x | the columns net, part, pin of a net list",
                "f.ipc | {\"format\": 3} | format"
            })
    void faultsNameTheirPlace(String name, String text, String place) throws Exception {
        Path bad = file(name, text.replace("\\n", "\n") + "\n");
        CommandRun run = CommandRun.of("check", bad);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(bad.toString()).contains(place);
    }
}
