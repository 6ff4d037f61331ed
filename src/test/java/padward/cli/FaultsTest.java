package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.fabric.delay.DelayTooLong;
import picocli.CommandLine;

/** Faults that a search meets in a file that was read before. */
class FaultsTest {
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "survey -d my/design.json -n a; padward: my/design.json: expected delays that",
                "diff a.json b.json; padward: expected delays that"
            })
    void delaysThatAreTooLongNameTheDesign(String words, String begin) {
        CommandLine line = Padward.commandLine();
        StringWriter err = new StringWriter();
        line.setErr(new PrintWriter(err));
        line.setExecutionStrategy(
                parsed -> {
                    CommandLine command = parsed.subcommand().commandSpec().commandLine();
                    throw new CommandLine.ExecutionException(command, "", new DelayTooLong());
                });
        assertThat(Padward.execute(line, words.split(" "))).isEqualTo(2);
        assertThat(err.toString()).startsWith(begin).contains("found a longer route");
    }
}
