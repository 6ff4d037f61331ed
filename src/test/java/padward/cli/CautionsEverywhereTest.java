package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.breakout.ask.Cautions;

/** The same cautions and the same footer wherever something changes, and an explicit yes. */
class CautionsEverywhereTest {
    private static final String NET = "pump/level/sample[1]";

    @TempDir private Path folder;
    private Path design;
    private Path ledger;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
        ledger = folder.resolve("bench.json");
    }

    private CommandRun keep(String pad, String... more) {
        List<Object> words =
                new ArrayList<>(List.of("keep", "-d", design, "-n", NET, "-p", pad, "-l", ledger));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray());
    }

    @Test
    void whatDrivesFollowsOrIsReadIsKeptOnlyWithAYes() throws Exception {
        CommandRun none = keep("J1.3");
        assertThat(none.code()).isEqualTo(2);
        assertThat(none.err()).contains("follows").contains("U7 pin 4 will follow " + NET);
        assertThat(Files.exists(ledger)).isFalse();
        CommandRun input = keep("FLOAT_HI", "--accept", "follows,reads");
        assertThat(input.code()).isEqualTo(2);
        assertThat(input.err()).contains("drives,reads");
        assertThat(keep("J1.3", "--accept", "perhaps").code()).isEqualTo(2);
        CommandRun yes = keep("J1.3", "--accept", "follows", "--who", "anna");
        assertThat(yes.code()).isZero();
        assertThat(yes.out())
                .contains("! DANGER: Port motor loses this pad.")
                .contains("Port motor loses its pad. U7 pin 4 will follow " + NET);
        JsonObject entry = entry(JsonParser.parseString(Files.readString(ledger)));
        JsonObject accepted = entry.getAsJsonArray("accepted").get(0).getAsJsonObject();
        assertThat(accepted.get("what").getAsString()).isEqualTo("follows");
        assertThat(accepted.get("who").getAsString()).isEqualTo("anna");
        assertThat(accepted.get("when").getAsString()).isEqualTo(entry.get("when").getAsString());
    }

    private static JsonObject entry(JsonElement file) {
        return file.getAsJsonObject().getAsJsonArray("entries").get(0).getAsJsonObject();
    }

    @Test
    void allThatChangesSomethingSaysTheSame() throws Exception {
        CommandRun keep = keep("J1.3", "--accept", "follows", "--json");
        JsonArray expected = keep.json().getAsJsonObject("answer").getAsJsonArray("cautions");
        assertThat(kinds(expected)).startsWith("port", "follows").endsWith("general");
        Path changes = folder.resolve("changes.json");
        CommandRun.of("changes", "-d", design, "-l", ledger, "-o", changes);
        JsonObject list = JsonParser.parseString(Files.readString(changes)).getAsJsonObject();
        List<String> withLoading = new ArrayList<>(kinds(expected));
        withLoading.add(withLoading.size() - 1, "loading");
        assertThat(kinds(entry(list).getAsJsonArray("cautions"))).isEqualTo(withLoading);
        assertThat(list.get("footer").getAsString()).isEqualTo(Cautions.FOOTER);
        Path plain = folder.resolve("changes.txt");
        Path template = Path.of("docs/templates/plain-commands.mustache");
        CommandRun.of("changes", "-d", design, "-l", ledger, "-o", plain, "-t", template);
        assertThat(Files.readString(plain))
                .contains("# CAUTION, DANGER: x7y3/pad[0]: Port motor loses this pad.")
                .contains("# " + Cautions.FOOTER);
        Path output = folder.resolve("changed.json");
        CommandRun apply = CommandRun.of("apply", "-d", design, "-l", ledger, "-o", output);
        Path page = folder.resolve("sheet.html");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page);
        CommandRun group = CommandRun.of("bus", "-d", design, "-n", NET, "-p", "J1.1");
        for (String text :
                List.of(
                        keep("J1.1").out(),
                        apply.out(),
                        group.out(),
                        Files.readString(page).replace("&#39;", "'"))) {
            assertThat(text.split("licensed practice stand above", -1)).hasSize(2);
        }
        assertThat(apply.out()).contains("! DANGER: x7y3/pad[0]: Port motor loses this pad.");
        JsonObject bus =
                CommandRun.of("bus", "-d", design, "-n", NET, "-p", "J1.1", "--json").json();
        assertThat(kinds(bus.getAsJsonArray("cautions"))).containsExactly("general");
        assertThat(bus.get("footer").getAsString()).isEqualTo(Cautions.FOOTER);
    }

    private static List<String> kinds(JsonArray cautions) {
        List<String> result = new ArrayList<>();
        cautions.forEach(c -> result.add(c.getAsJsonObject().get("kind").getAsString()));
        return result;
    }

    @Test
    void aGroupLeavesPortsTheirPadsUnlessAllowed() {
        CommandRun kept = CommandRun.of("bus", "-d", design, "-n", NET, "-p", "LAMP", "--json");
        assertThat(kept.code()).isEqualTo(1);
        assertThat(kept.json().getAsJsonArray("lines")).isEmpty();
        CommandRun taken =
                CommandRun.of(
                        "bus", "-d", design, "-n", NET, "-p", "LAMP", "--json", "--may-disconnect");
        assertThat(taken.code()).isZero();
        JsonObject price = taken.json().getAsJsonObject("price");
        assertThat(price.getAsJsonArray("losesPad").get(0).getAsString()).isEqualTo("lamp");
    }

    @Test
    void theDifferencesSayWhatTheyCost() {
        assertThat(keep("J1.3", "--accept", "follows").code()).isZero();
        CommandRun diff = CommandRun.of("diff", design, ledger, "-d", design);
        assertThat(diff.out())
                .contains("What it costs: Port motor loses its pad. U7 pin 4 will follow " + NET)
                .contains("! DANGER: ");
    }

    /** The nets of input ports go with them: they are counted, and what they feed is named. */
    @Test
    void aGroupOnInputPortsSaysWhatIsRemoved() {
        List<Object> words =
                new ArrayList<>(List.of("bus", "-d", Path.of("fixtures/small/around.design.json")));
        words.addAll(List.of("--nets", "pump/level/sample[*]", "--pads", "FLOAT_HI, FLOAT_LO"));
        words.addAll(List.of("--unblock", "--may-disconnect"));
        assertThat(CommandRun.of(words.toArray()).out())
                .contains("Removed to serve 2 of 2 nets: 2, proven minimum.")
                .contains("Ports float_hi, float_lo lose their pads.")
                .contains("Would lose signal: pump/level/hi_sync.in[0], pump/level/lo_sync.in[0].")
                .contains("U4 pin 2 on the board drives pad x0y3/pad[0] against the chip.");
        words.add("--json");
        JsonObject json = CommandRun.of(words.toArray()).json();
        assertThat(json.getAsJsonObject("unblocked").getAsJsonArray("removed")).hasSize(2);
        assertThat(kinds(json.getAsJsonArray("cautions"))).startsWith("drives", "drives");
        words.remove("--json");
        words.addAll(List.of("-l", ledger));
        CommandRun refused = CommandRun.of(words.toArray());
        assertThat(refused.code()).isEqualTo(2);
        assertThat(refused.err()).contains("drives,reads");
        assertThat(Files.exists(ledger)).isFalse();
    }

    /** A table has no room for them: they are printed when it is written. */
    @Test
    void aChangeListsCautionsArePrintedToo() {
        assertThat(keep("J1.3", "--accept", "follows").code()).isZero();
        Path table = folder.resolve("changes.csv");
        CommandRun run = CommandRun.of("changes", "-d", design, "-l", ledger, "-o", table);
        assertThat(run.out())
                .contains("! DANGER: x7y3/pad[0]: Port motor loses this pad.")
                .contains("U7 pin 4 is an input on this pad")
                .contains(Cautions.FOOTER);
    }

    /** Whoever reads the sheet or the entry sees who took it on, and which lead it is. */
    @Test
    void theSheetAndTheEntrySayWhoAcceptedIt() throws Exception {
        assertThat(keep("J1.3", "--accept", "follows", "--who", "anna").code()).isZero();
        Path page = folder.resolve("sheet.html");
        CommandRun.of("sheet", "-d", design, "-l", ledger, "-o", page);
        String text = Files.readString(page);
        assertThat(text)
                .containsPattern("Accepted</td><td colspan=\"3\">follows, by anna, 2\\d{3}-")
                .contains("<li>Take the leads off, power off. Power on and load the earlier design")
                .contains("leads of 0 m (their length is not stated)");
        CommandRun show =
                CommandRun.of("ledger", "show", "-d", design, "-l", ledger, "--entry", "1");
        assertThat(show.out())
                .contains("Accepted: follows, by anna, 2")
                .contains("Leads: port out_J1.3 on channel 1.");
    }

    /** Going back: leads off first, and the port drives its part again. */
    @Test
    void theInverseListWarnsToo() throws Exception {
        assertThat(keep("J1.3", "--accept", "follows").code()).isZero();
        Path back = folder.resolve("back.json");
        CommandRun.of("changes", "-d", design, "-l", ledger, "--back", "-o", back);
        JsonObject list = JsonParser.parseString(Files.readString(back)).getAsJsonObject();
        assertThat(entry(list).getAsJsonArray("cautions").toString())
                .contains("Port motor has this pad again, and what is on it obeys that.")
                .contains("Take the leads off before going back.");
        assertThat(list.get("footer").getAsString()).isEqualTo(Cautions.FOOTER);
    }
}
