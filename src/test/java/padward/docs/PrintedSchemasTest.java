package padward.docs;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonParser;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.cli.Padward;
import padward.cli.PublishedSchemas;
import picocli.CommandLine;

/** Everything that commands print as JSON, against the schemas that are published for it. */
class PrintedSchemasTest {
    private static final Path FOLDER = Path.of("src/main/resources/padward/cli");
    private static final String SMALL = "fixtures/small/only.design.json";
    private static final String SAMPLE = "pump/level/sample[1]";

    private final Map<String, Schema> schemas = new HashMap<>();
    private final Set<String> met = new TreeSet<>();

    @TempDir private Path folder;

    @BeforeEach
    void read() throws Exception {
        for (String name : PublishedSchemas.all().keySet()) {
            String text = Files.readString(FOLDER.resolve(name + ".schema.json"));
            schemas.put(
                    name,
                    SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                            .getSchema(text, InputFormat.JSON));
        }
    }

    @Test
    void thePublishedSchemasAreThoseOfTheForms() throws Exception {
        for (Map.Entry<String, String> schema : PublishedSchemas.all().entrySet()) {
            Path file = FOLDER.resolve(schema.getKey() + ".schema.json");
            assertThat(Files.readString(file)).isEqualTo(schema.getValue());
        }
    }

    @Test
    void everyExampleOfTheHelpPrintsWhatItsSchemaAllows() throws Exception {
        List<List<String>> commands = new ArrayList<>();
        List<List<String>> last = new ArrayList<>();
        for (PaperCommand example : PaperCommand.ofHelp()) {
            List<String> words = new ArrayList<>(example.words());
            if (words.contains("--batch")) {
                commands.add(words);
                words = new ArrayList<>(words);
                words.remove("--brief");
                commands.add(words);
            } else if (hasJson(words.get(0))) {
                words.add("--json");
                (words.get(0).equals("undo") ? last : commands).add(words);
            }
        }
        commands.addAll(last);
        commands.forEach(c -> c.replaceAll(this::inFolder));
        commands.forEach(this::check);
        for (List<String> more :
                List.of(
                        List.of("ask", "--design", SMALL, "-n", SAMPLE, "-p", "D5"),
                        List.of("ask", "--design", SMALL, "-n", SAMPLE, "-p", "x0y5/pad[0]"),
                        List.of("ask", "-d", SMALL, "-n", SAMPLE, "-p", "J2.1", "--within-ms", "0"),
                        List.of(
                                "ask",
                                "-d",
                                SMALL,
                                "-n",
                                SAMPLE,
                                "-p",
                                "x0y5/pad[0]",
                                "--what-if",
                                "remove net alarm/beep"),
                        List.of(
                                "bus",
                                "-d",
                                SMALL,
                                "-n",
                                "pump/level/sample[*]",
                                "-p",
                                "header J1",
                                "--register",
                                "clk12",
                                "--match-ps",
                                "150",
                                "--aim",
                                "most"),
                        List.of(
                                "watch",
                                "divide",
                                "-d",
                                SMALL,
                                "-n",
                                "alarm/beep",
                                "--by",
                                "60000",
                                "-p",
                                "D5"))) {
            List<String> words = new ArrayList<>(more);
            words.add("--json");
            check(words);
        }
        String fabric = "fixtures/small/only.fabric.json";
        check(List.of("expand", fabric, "-o", folder.resolve("wires.json").toString(), "--json"));
        check(List.of("lesson", "--json"));
        Set<String> printed = new TreeSet<>(schemas.keySet());
        printed.remove("question");
        assertThat(met).containsExactlyElementsOf(printed);
    }

    private static boolean hasJson(String command) {
        CommandLine line = Padward.commandLine().getSubcommands().get(command);
        // Those that print their lines as JSON write files that need a folder each.
        return line.getCommandSpec().findOption("--json") != null
                && !line.getCommandSpec().mixins().containsKey("lines");
    }

    /** What the examples write and read again stands in a folder of the test's own. */
    private String inFolder(String word) {
        return word.matches("[a-z.]+\\.json") ? folder.resolve(word).toString() : word;
    }

    private void check(List<String> words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        int status = line.execute(words.toArray(String[]::new));
        assertThat(status).as("%s: %s", words, err).isLessThan(2);
        if (words.contains("--batch")) {
            out.toString().lines().forEach(l -> check("line", l, words));
            return;
        }
        String format =
                JsonParser.parseString(out.toString())
                        .getAsJsonObject()
                        .get("format")
                        .getAsString();
        check(format.replaceAll("^padward-|/1$", ""), out.toString(), words);
    }

    private void check(String name, String json, List<String> words) {
        assertThat(schemas).containsKey(name);
        met.add(name);
        assertThat(schemas.get(name).validate(json, InputFormat.JSON)).as("" + words).isEmpty();
    }

    /** Writes all schemas. */
    public static void main(String[] args) throws Exception {
        for (Map.Entry<String, String> schema : PublishedSchemas.all().entrySet()) {
            Files.writeString(FOLDER.resolve(schema.getKey() + ".schema.json"), schema.getValue());
        }
    }
}
