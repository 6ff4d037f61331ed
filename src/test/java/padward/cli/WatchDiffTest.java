package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/**
 * The differences that a watch circuit makes: all its cells and nets, and every branch, as the
 * ledger's file lists them; nothing is gone.
 */
class WatchDiffTest {
    @TempDir private Path folder;

    private String run(int expected, String... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        assertThat(line.execute(words)).as(err.toString()).isEqualTo(expected);
        return out.toString();
    }

    @Test
    void cellsNetsAndBranchesOfAKeptCircuit() throws Exception {
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        String design = folder.resolve("only.design.json").toString();
        String ledger = folder.resolve("bench.json").toString();
        String when = "level/sample[1:0] == 2b11 && !beep";
        run(0, "watch", "trigger", "-d", design, "--when", when, "-p", "J1.2", "-l", ledger);
        String text = run(1, "diff", design, ledger);
        JsonObject diff = object(run(1, "diff", design, ledger, "--json"));

        Map<String, String> cells = new HashMap<>();
        Map<String, JsonArray> added = new HashMap<>();
        JsonObject entry =
                object(Files.readString(Path.of(ledger)))
                        .getAsJsonArray("entries")
                        .get(0)
                        .getAsJsonObject();
        for (JsonElement element : entry.getAsJsonArray("edits")) {
            JsonObject edit = element.getAsJsonObject();
            switch (text(edit, "do")) {
                case "add-cell" -> cells.put(text(edit, "cell"), text(edit, "site"));
                case "add-net" ->
                        added.computeIfAbsent(text(edit, "net"), n -> new JsonArray())
                                .addAll(edit.getAsJsonArray("steps"));
                default ->
                        added.computeIfAbsent(text(edit, "net"), n -> new JsonArray())
                                .addAll(pairs(edit.getAsJsonArray("route")));
            }
        }
        assertThat(cells).hasSize(2);
        assertThat(added).hasSize(6);

        Map<String, String> shownCells = new HashMap<>();
        for (JsonElement element : diff.getAsJsonArray("cells")) {
            JsonObject cell = element.getAsJsonObject();
            assertThat(text(cell, "how")).isEqualTo("new");
            for (JsonElement fact : cell.getAsJsonArray("facts")) {
                if (text(fact.getAsJsonObject(), "what").equals("site")) {
                    shownCells.put(text(cell, "name"), text(fact.getAsJsonObject(), "after"));
                }
            }
            assertThat(text).contains("Cell " + text(cell, "name") + ": new");
        }
        assertThat(shownCells).isEqualTo(cells);
        Map<String, JsonArray> shown = new HashMap<>();
        for (JsonElement element : diff.getAsJsonArray("nets")) {
            JsonObject net = element.getAsJsonObject();
            String name = text(net, "name");
            shown.put(name, net.getAsJsonArray("stepsAdded"));
            assertThat(net.getAsJsonArray("stepsRemoved")).as(name).isEmpty();
            // The circuit's nets have the names of the cells that drive them.
            assertThat(text(net, "how")).isEqualTo(cells.containsKey(name) ? "new" : "changed");
            assertThat(net.getAsJsonArray("ends")).as(name).isNotEmpty();
            assertThat(text).contains("Net " + name + ": " + text(net, "how"));
        }
        assertThat(shown).isEqualTo(added);
        assertThat(text)
                .contains("setting contents: 0808", "to watch/trigger1/table[0].in[2]: not");
    }

    private static JsonObject object(String text) {
        return JsonParser.parseString(text).getAsJsonObject();
    }

    private static String text(JsonObject of, String field) {
        return of.get(field).getAsString();
    }

    private static JsonArray pairs(JsonArray route) {
        JsonArray pairs = new JsonArray();
        for (int i = 1; i < route.size(); i++) {
            JsonArray pair = new JsonArray();
            pair.add(route.get(i - 1));
            pair.add(route.get(i));
            pairs.add(pair);
        }
        return pairs;
    }
}
