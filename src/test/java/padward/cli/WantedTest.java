package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.Consumer;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Wanted nets after a run of the implementation. */
class WantedTest {
    private static final String SAMPLE = "pump/level/sample[1]";

    @TempDir private Path folder;

    private Path was;

    @BeforeEach
    void copy() throws Exception {
        was = CommandRun.copyExample(folder);
    }

    private CommandRun wanted(String rows, Path now, Object... more) throws Exception {
        Path table = Files.writeString(folder.resolve("wanted.csv"), rows);
        Object[] words = new Object[4 + more.length];
        System.arraycopy(new Object[] {"wanted", table, "-d", now}, 0, words, 0, 4);
        System.arraycopy(more, 0, words, 4, more.length);
        return CommandRun.of(words);
    }

    /** The design with its JSON changed. */
    private Path edited(Consumer<JsonObject> edit) throws Exception {
        JsonObject design = JsonParser.parseString(Files.readString(was)).getAsJsonObject();
        edit.accept(design);
        return Files.writeString(folder.resolve("now.design.json"), design.toString());
    }

    private static JsonObject net(JsonObject design, String name) {
        JsonArray nets = design.getAsJsonArray("nets");
        return StreamSupport.stream(nets.spliterator(), false)
                .map(JsonElement::getAsJsonObject)
                .filter(n -> n.get("name").getAsString().equals(name))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theFirstOpenPadIsTaken() throws Exception {
        CommandRun run = wanted("net,pads,need\n" + SAMPLE + ",J2.1|J1-2|J1.1,must\n", was);
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isZero();
        assertThat(run.out()).contains("x7y2/pad[1]", "Open", "can be seen.");
        assertThat(wanted("net\n" + SAMPLE + "\n", was, "--was", was).out())
                .contains("and nothing changed.");
    }

    @Test
    void onlyWhatMustBeSeenCounts() throws Exception {
        assertThat(wanted("net,pads\n" + SAMPLE + ",J2.1\n", was).code()).isEqualTo(1);
        CommandRun may = wanted("net,pads,need\n" + SAMPLE + ",J2.1,may\n", was);
        assertThat(may.code()).isZero();
        assertThat(may.out()).contains("Blocked");
    }

    @Test
    void aRenamedNetIsFoundByItsDriver() throws Exception {
        Path now = edited(d -> net(d, SAMPLE).addProperty("name", "level_1"));
        CommandRun run = wanted("net,pads\n" + SAMPLE + ",J1.2\n", now, "--was", was, "--json");
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isEqualTo(1);
        JsonObject one = run.json().getAsJsonArray("nets").get(0).getAsJsonObject();
        assertThat(one.get("net").getAsString()).isEqualTo("level_1");
        assertThat(one.getAsJsonArray("changes").get(0).getAsJsonObject().get("kind").getAsString())
                .isEqualTo("renamed");
        assertThat(one.get("answer").getAsString()).isEqualTo("open");
    }

    @Test
    void aPortOnThePadAndABlockedRouteAreReported() throws Exception {
        Path ledger = folder.resolve("l.json");
        Path now = folder.resolve("now.design.json");
        CommandRun.of("keep", "-d", was, "-n", SAMPLE, "-p", "J1.2", "-l", ledger);
        CommandRun.of("apply", "-d", was, "-l", ledger, "-o", now);
        CommandRun run = wanted("net,pads\npump/level/hi_sync,J1.2\n", now, "--was", was);
        assertThat(run.out()).contains("port-on-pad: port").contains("is now on pad x7y2/pad[1]");
        assertThat(run.code()).isEqualTo(1);
        CommandRun two = wanted("net,pads\npump/level/hi_sync,J1.2|J1.1\n", now, "--was", was);
        assertThat(two.out()).contains("other-pad: pad x7y2/pad[0] instead of pad x7y2/pad[1]");
    }

    /** The best pad now need not be the pad of the earlier route. */
    @Test
    void aBlockedRouteNamesThePadOfItsObstacles() throws Exception {
        Path open =
                edited(
                        d -> {
                            JsonArray nets = d.getAsJsonArray("nets");
                            nets.remove(net(d, "alarm/beep"));
                        });
        String rows = "net,pads\n" + SAMPLE + ",x0y5/pad[0]|J2.1\n";
        CommandRun run = wanted(rows, was, "--was", open);
        assertThat(run.out())
                .containsPattern(
                        "newly-blocked: pad x0y5/pad\\[0\\] had a route; "
                                + "now pad \\S+ is blocked by \\S+");
    }

    @Test
    void aChangeOfANetThatMayBeSeenIsNotDenied() throws Exception {
        Path now = edited(d -> net(d, SAMPLE).addProperty("name", "level_1"));
        CommandRun run = wanted("net,pads,need\n" + SAMPLE + ",J1.2,may\n", now, "--was", was);
        assertThat(run.code()).isZero();
        assertThat(run.out())
                .contains("renamed: ")
                .contains("All nets that must be seen can be seen, and nothing changed for them.");
    }

    /** A net that only the present design has is said to be new; one that is found is compared. */
    @Test
    void aNetThatTheEarlierDesignLacksIsSaidToBeNew() throws Exception {
        Path renamed = edited(d -> net(d, SAMPLE).addProperty("name", "level_1"));
        CommandRun byDriver = wanted("net,pads\nlevel_1,J1.2\n", renamed, "--was", was);
        assertThat(byDriver.out()).contains("renamed: " + SAMPLE + " is now level_1");
        Path without =
                Files.move(
                        edited(d -> d.getAsJsonArray("nets").remove(net(d, SAMPLE))),
                        folder.resolve("without.design.json"));
        CommandRun run = wanted("net,pads\n" + SAMPLE + ",J1.2\n", was, "--was", without);
        assertThat(run.out()).contains("new: the earlier design has no such net");
        assertThat(run.code()).isEqualTo(1);
    }

    @Test
    void theOtherNamesHoldInTheEarlierDesignToo() throws Exception {
        Path names =
                Files.writeString(folder.resolve("names.csv"), "name,net\nmine," + SAMPLE + "\n");
        Path now = edited(d -> net(d, SAMPLE).addProperty("name", "level_1"));
        CommandRun run = wanted("net,pads\nmine,J1.2\n", now, "--was", was, "--names", names);
        assertThat(run.err()).isEmpty();
        assertThat(run.out()).contains("renamed: " + SAMPLE + " is now level_1");
        CommandRun ask =
                CommandRun.of(
                        "ask", "-d", now, "--was", was, "--names", names, "-n", "mine", "-p",
                        "J1.2");
        assertThat(ask.err()).isEmpty();
        assertThat(ask.out()).startsWith("Open: level_1 ");
    }

    @Test
    void aNameOfNeitherDesignIsAFaultWithItsRow() throws Exception {
        assertThat(wanted("net,pads\n" + SAMPLE + ",J1.2\nnothing,J1.2\n", was).err())
                .contains("wanted.csv, at row 3, column net: expected");
        assertThat(wanted("net,pads\n" + SAMPLE + ",J9\n", was).err())
                .contains("row 2, column pads");
        assertThat(wanted("net,need\n" + SAMPLE + ",perhaps\n", was).err())
                .contains("one of must, may");
        assertThat(wanted("net\n", was).err()).contains("a row for each wanted net");
    }

    /** The cell and its net are gone; those before and after it are not. */
    @Test
    void registersAroundAGoneNetAreOffered() throws Exception {
        String text = Files.readString(was);
        Path gone =
                Files.writeString(
                        folder.resolve("now.design.json"),
                        text.replace("\"pump/level/hi_sync\"", "\"other\""));
        CommandRun run = wanted("net,pads\npump/level/hi_sync,J1.2\n", gone, "--was", was);
        assertThat(run.err()).isEmpty();
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains("gone: neither its name nor its driver is there")
                .contains("Registers around pump/level/hi_sync that are still there:");
    }

    @Test
    void askLooksForTheNetOfAnEarlierDesignToo() throws Exception {
        Path renamed = edited(d -> net(d, SAMPLE).addProperty("name", "level_1"));
        CommandRun found =
                CommandRun.of("ask", "-d", renamed, "--was", was, "-n", SAMPLE, "-p", "J1.2");
        assertThat(found.err()).isEmpty();
        assertThat(found.out()).startsWith("Open: level_1 ");
        Path gone =
                Files.writeString(
                        folder.resolve("gone.design.json"),
                        Files.readString(was).replace("\"pump/level/hi_sync\"", "\"other\""));
        Object[] ask = {
            "ask", "-d", gone, "--was", was, "-n", "pump/level/hi_sync", "-p", "J1.2", "--quiet"
        };
        assertThat(CommandRun.of(ask).code()).isEqualTo(1);
        ask[ask.length - 1] = "--json";
        JsonObject one = CommandRun.of(ask).json().getAsJsonArray("nets").get(0).getAsJsonObject();
        JsonObject near = one.getAsJsonArray("near").get(0).getAsJsonObject();
        assertThat(near.get("answer").getAsString()).isEqualTo("open");
        CommandRun never =
                CommandRun.of("ask", "-d", gone, "--was", was, "-n", "nosuch", "-p", "J1.2");
        assertThat(never.code()).isEqualTo(2);
    }
}
