package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Pads that the package does not connect, or that are for something else than signals. */
class PadUseTest {
    private static final String NET = "pump/level/sample[1]";

    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void stateTheUsesOfTwoPads() throws Exception {
        design = CommandRun.copyExample(folder);
        Path fabric = folder.resolve("only.fabric.json");
        String text =
                Files.readString(fabric)
                        .replace("\"packagePin\": \"A1\",", "\"bonded\": false,")
                        .replace(
                                "\"packagePin\": \"A2\",",
                                "\"packagePin\": \"A2\", \"role\": \"configuration\",")
                        .replace(
                                "\"packagePin\": \"A3\",",
                                "\"packagePin\": \"A3\", \"role\": \"clock\",");
        Files.writeString(fabric, text);
    }

    private static List<String> pads(CommandRun run) {
        return StreamSupport.stream(run.json().getAsJsonArray("answers").spliterator(), false)
                .map(JsonElement::getAsJsonObject)
                .map(a -> a.get("pad").getAsString())
                .toList();
    }

    @Test
    void aSurveyLeavesThemOutAndSaysSo() {
        CommandRun run = CommandRun.of("survey", "-d", design, "-n", NET);
        assertThat(run.out())
                .contains("Pads left out: 1 for configuration, 1 not bonded out; --all-pads")
                .doesNotContain("x0y1/pad[0]")
                .contains("x0y2/pad[0]");
        assertThat(pads(CommandRun.of("survey", "-d", design, "-n", NET, "--json")))
                .doesNotContain("x0y1/pad[0]", "x0y1/pad[1]");
    }

    @Test
    void allPadsShowsThemAfterAllThatCanBeUsed() {
        CommandRun run = CommandRun.of("survey", "-d", design, "-n", NET, "--json", "--all-pads");
        List<String> pads = pads(run);
        assertThat(pads).contains("x0y1/pad[0]", "x0y1/pad[1]");
        assertThat(CommandRun.of("survey", "-d", design, "-n", NET, "--all-pads").out())
                .contains("not bonded out")
                .doesNotContain("Pads left out");
        int first = Math.min(pads.indexOf("x0y1/pad[0]"), pads.indexOf("x0y1/pad[1]"));
        JsonElement before = run.json().getAsJsonArray("answers").get(first - 1);
        assertThat(before.toString()).doesNotContain("no-route");
    }

    @Test
    void oneThatIsAskedForIsAnsweredWithASeriousCaution() {
        assertThat(CommandRun.of("ask", "-d", design, "-n", NET, "-p", "x0y1/pad[0]").out())
                .contains("The package connects this pad to no pin");
        assertThat(CommandRun.of("ask", "-d", design, "-n", NET, "-p", "A2").out())
                .contains("This pad is for loading the configuration");
    }

    @Test
    void aGroupTakesThemOnlyWhenNamed() {
        CommandRun bank =
                CommandRun.of("bus", "-d", design, "-n", NET, "-p", "x0y1/pad*", "--json");
        assertThat(bank.out()).contains("x0y1/pad[");
        CommandRun wider =
                CommandRun.of("bus", "-d", design, "-n", NET, "-p", "x0y?/pad*", "--json");
        assertThat(wider.out()).doesNotContain("x0y1/pad[");
    }

    @Test
    void checkNamesPortsOnThem() throws Exception {
        Path fabric = folder.resolve("only.fabric.json");
        String text = Files.readString(fabric);
        String pin = "\"packagePin\": \"D7\",";
        assertThat(text).contains(pin);
        assertThat(CommandRun.of("check", design).out()).doesNotContain("motor, for testing");
        Files.writeString(fabric, text.replace(pin, pin + " \"role\": \"test\","));
        assertThat(CommandRun.of("check", design).out())
                .contains("ports on pads that are not for signals of a design: 2")
                .contains("motor, for testing");
    }

    @Test
    void bothFormsOfFilesKeepThem() throws Exception {
        Path explicit = folder.resolve("explicit.fabric.json");
        assertThat(
                        CommandRun.of("expand", folder.resolve("only.fabric.json"), "-o", explicit)
                                .code())
                .isZero();
        Path tables = folder.resolve("tables");
        assertThat(CommandRun.of("export", "-d", design, "--tables", tables).code()).isZero();
        assertThat(Files.readAllLines(tables.resolve("pads.csv")))
                .filteredOn(r -> r.startsWith("x0y1/pad["))
                .hasSize(2)
                .anyMatch(r -> r.contains(",no,"))
                .anyMatch(r -> r.contains(",,configuration,"));
        assertThat(Files.readString(explicit))
                .contains("\"bonded\": false")
                .contains("\"role\": \"configuration\"");
        Path again = folder.resolve("again");
        assertThat(CommandRun.of("import", "--tables", tables, "-o", again).code()).isZero();
        Path second = folder.resolve("second");
        assertThat(
                        CommandRun.of(
                                        "export",
                                        "-d",
                                        again.resolve("design.json.gz"),
                                        "--tables",
                                        second)
                                .err())
                .isEmpty();
        assertThat(second.resolve("pads.csv")).hasSameTextualContentAs(tables.resolve("pads.csv"));
    }
}
