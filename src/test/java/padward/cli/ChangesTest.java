package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.apache.commons.codec.digest.DigestUtils;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.EnabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.format.design.DesignReader;

/** What is handed over to other tools: the list of changes, as files and through templates. */
class ChangesTest {
    private static final Path EXAMPLE = Path.of("docs/templates/plain-commands.mustache");

    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    @BeforeEach
    void keepTwo() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("l.json");
        keep("pump/level/sample[1]", "J1.3");
        keep("pump/level/sample[0]", "J2.1");
    }

    private void keep(String net, String pad) {
        CommandRun run =
                CommandRun.of(
                        "keep",
                        "-d",
                        design,
                        "-n",
                        net,
                        "-p",
                        pad,
                        "-l",
                        ledger,
                        "--accept",
                        "follows",
                        "--note",
                        "it's\nso");
        assertThat(run.code()).isZero();
    }

    private String handedOver(String name, Object... more) throws Exception {
        Object[] words = new Object[7 + more.length];
        Object[] first = {"changes", "-d", design, "-l", ledger, "-o", folder.resolve(name)};
        System.arraycopy(first, 0, words, 0, 7);
        System.arraycopy(more, 0, words, 7, more.length);
        CommandRun run = CommandRun.of(words);
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).contains("elementary changes");
        return Files.readString(folder.resolve(name));
    }

    /** Carried out by hand on the old design's switches, the list gives the new design's. */
    @Test
    void theListTurnsTheOldDesignIntoTheNewOne() throws Exception {
        Design before = DesignReader.read(design, Progress.NONE);
        Set<String> steps = steps(before);
        Set<String> ports = new HashSet<>(before.ports().stream().map(p -> p.name()).toList());
        JsonObject list = JsonParser.parseString(handedOver("c.json")).getAsJsonObject();
        for (JsonElement entry : list.getAsJsonArray("entries")) {
            for (JsonElement one : entry.getAsJsonObject().getAsJsonArray("changes")) {
                carryOut(one.getAsJsonObject(), steps, ports);
            }
        }
        Path changed = folder.resolve("changed.json");
        CommandRun.of("apply", "-d", design, "-l", ledger, "-o", changed);
        Design after = DesignReader.read(changed, Progress.NONE);
        assertThat(steps).isEqualTo(steps(after));
        assertThat(ports)
                .isEqualTo(new HashSet<>(after.ports().stream().map(p -> p.name()).toList()));
        assertThat(list.get("sha256").getAsString())
                .isEqualTo(DigestUtils.sha256Hex(Files.readAllBytes(design)));
    }

    private static void carryOut(JsonObject change, Set<String> steps, Set<String> ports) {
        String name = change.get("name").getAsString();
        switch (change.get("what").getAsString()) {
            case "off" -> assertThat(steps.remove(step(name, change))).isTrue();
            case "on" -> assertThat(steps.add(step(name, change))).isTrue();
            case "port-gone" -> assertThat(ports.remove(name)).isTrue();
            case "port-new" -> assertThat(ports.add(name)).isTrue();
            default -> assertThat(name).isNotEmpty();
        }
    }

    private static String step(String net, JsonObject change) {
        return net + ": " + change.get("from").getAsString() + " " + change.get("to").getAsString();
    }

    private static Set<String> steps(Design design) {
        Set<String> result = new HashSet<>();
        for (Net net : design.nets()) {
            for (int i = 1; i < net.route().size(); i++) {
                int from = net.route().vertex(net.route().parent(i));
                result.add(
                        net.name()
                                + ": "
                                + design.fabric().vertexName(from)
                                + " "
                                + design.fabric().vertexName(net.route().vertex(i)));
            }
        }
        return result;
    }

    /** RFC 4180, through a general reader; the same changes in the same order. */
    @Test
    void theTableHasTheSameChangesAsTheJson() throws Exception {
        String text = handedOver("c.csv");
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        List<CSVRecord> rows;
        try (CSVParser parser = format.parse(new StringReader(text))) {
            rows = parser.getRecords();
        }
        JsonObject list = JsonParser.parseString(handedOver("c.json")).getAsJsonObject();
        int row = 0;
        for (JsonElement entry : list.getAsJsonArray("entries")) {
            for (JsonElement one : entry.getAsJsonObject().getAsJsonArray("changes")) {
                CSVRecord record = rows.get(row++);
                one.getAsJsonObject()
                        .entrySet()
                        .forEach(
                                e ->
                                        assertThat(record.get(e.getKey()))
                                                .isEqualTo(e.getValue().getAsString()));
            }
        }
        assertThat(rows).hasSize(row);
    }

    @Test
    void theExampleTemplateWritesACommandForEachChange() throws Exception {
        String text = handedOver("c.txt", "--template", EXAMPLE);
        JsonObject list = JsonParser.parseString(handedOver("c.json")).getAsJsonObject();
        long changes = 0;
        for (JsonElement entry : list.getAsJsonArray("entries")) {
            changes += entry.getAsJsonObject().getAsJsonArray("changes").size();
        }
        assertThat(text.lines().filter(l -> !l.isBlank() && !l.startsWith("#")).count())
                .isEqualTo(changes);
        assertThat(text)
                .contains("# Changes to only.design.json")
                .contains("#   it's")
                .contains("open     'out_J1.3' 'x7y3/pad[0]' 'lv33-8'")
                .doesNotContain("{{");
    }

    @Test
    void textsAreQuotedByTheStandardsOfOtherLanguages() throws Exception {
        Path template = folder.resolve("t");
        Files.writeString(
                template,
                "{{#entries}}{{#noteLines}}{{#shell}}{{text}}{{/shell}} {{#json}}{{text}}{{/json}}"
                        + " {{#csv}}{{text}}{{/csv}}\n{{/noteLines}}{{/entries}}",
                StandardCharsets.UTF_8);
        assertThat(handedOver("c.txt", "-t", template))
                .startsWith("'it'\\''s' \"it's\" \"it's\"\n'so' \"so\" \"so\"\n");
    }

    @Test
    void templatesCanWriteSeparatorsAndNumbers() throws Exception {
        Path template = folder.resolve("t");
        Files.writeString(
                template, "{{#entries}}{{-index}}={{number}}{{^-last}}, {{/-last}}{{/entries}}");
        assertThat(handedOver("c.txt", "-t", template)).isEqualTo("1=1, 2=2");
    }

    /** Each fault tells its line; no template reaches the program's objects or other files. */
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "line 2; {{#entries}}|{{nmae}}{{/entries}}; “nmae”",
                "line 1; {{#entrys}}x{{/entrys}}; “entrys”",
                "line 2; {{#entries}}|{{when.getClass}}{{/entries}}; “when.getClass”",
                "line 2; {{#entries}}|{{class.name}}{{/entries}}; “class”",
                "line 2; |{{#entries}}; Section missing close tag",
                "'';{{> /etc/passwd}}; a template stands alone"
            })
    void faultsOfATemplateAreReportedWithTheirLine(String place, String template, String expected)
            throws Exception {
        Path file = folder.resolve("t");
        Files.writeString(file, template.replace('|', '\n'));
        Path output = folder.resolve("c.txt");
        CommandRun run =
                CommandRun.of("changes", "-d", design, "-l", ledger, "-o", output, "-t", file);
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains(place).contains(expected);
        assertThat(run.err().strip()).doesNotContain("\n");
        assertThat(output).doesNotExist();
    }

    /** What the template library trips over, and what would take for ever, is a fault as well. */
    @Test
    void malformedAndEndlessTemplatesAreFaults() throws Exception {
        String nested = "{{#entries}}".repeat(30) + "x" + "{{/entries}}".repeat(30);
        String deep = "{{#entries}}".repeat(3000) + "{{/entries}}".repeat(3000);
        for (String text : List.of("{{}}", "{{=}}", "{{shell}}", "{{entries}}", nested, deep)) {
            Path file = folder.resolve("t");
            Files.writeString(file, text);
            Path output = folder.resolve("c.txt");
            CommandRun run =
                    CommandRun.of("changes", "-d", design, "-l", ledger, "-o", output, "-t", file);
            assertThat(run.code()).as(text).isEqualTo(2);
            assertThat(run.err().strip()).as(text).contains("expected").doesNotContain("\n");
            assertThat(output).as(text).doesNotExist();
        }
    }

    /** A device does not say how long it is, and need not end. */
    @Test
    @EnabledOnOs({OS.LINUX, OS.MAC})
    void aTemplateWithoutEndIsAFault() {
        Path output = folder.resolve("c.txt");
        CommandRun run =
                CommandRun.of(
                        "changes", "-d", design, "-l", ledger, "-o", output, "-t", "/dev/zero");
        assertThat(run.code()).isEqualTo(2);
        assertThat(run.err()).contains("at most 1000000 bytes");
        assertThat(output).doesNotExist();
    }
}
