package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What is proven of a group: the least sum, and how far other aims are from it. */
class BestGroupTest {
    @TempDir private Path folder;
    private Path design;

    @BeforeEach
    void copy() throws Exception {
        design = CommandRun.copyExample(folder);
    }

    private CommandRun bus(String nets, String pads, Object... more) {
        List<Object> words = new ArrayList<>(List.of("bus", "-d", design, "-n", nets, "-p", pads));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray());
    }

    /** A pad's package is part of the delay that is proven to be the least. */
    @Test
    void packagesCountInTheLeastSum() throws Exception {
        assertThat(bus("pump/level/sample[0]", "D8,E1").out()).contains("x7y3/pad[1]");
        Path fabric = folder.resolve("only.fabric.json");
        String pin = "\"packagePin\": \"D8\"";
        String text = Files.readString(fabric);
        assertThat(text).contains(pin);
        Files.writeString(fabric, text.replace(pin, pin + ", \"package_ps\": [400, 400]"));
        String out = bus("pump/level/sample[0]", "D8,E1").out();
        assertThat(out).contains("x7y2/pad[0]").doesNotContain("x7y3/pad[1]");
        assertThat(out).contains("Proven: no choice of these pads");
    }

    @Test
    void otherAimsSayHowFarTheyAreFromTheBest() {
        CommandRun order = bus("pump/level/sample[*]", "header J1", "--aim", "order");
        assertThat(order.out())
                .containsPattern(
                        "Proven: no more nets can be brought out together on these pads, and the"
                                + " least sum of slow-corner delays for so many is 7\\.790 ns; this aim"
                                + " takes [\\d.]+ ns, [\\d.]+ % more\\.");
        assertThat(
                        bus("pump/level/sample[*]", "header J1", "--aim", "skew", "--json")
                                .json()
                                .get("distanceToBest")
                                .getAsString())
                .startsWith("Proven: no more nets");
        assertThat(bus("pump/level/sample[0]", "J1.1", "--aim", "sum").out())
                .doesNotContain("0.0 % more");
        // The best itself says so in its own words.
        assertThat(bus("pump/level/sample[*]", "header J1").out()).doesNotContain("this aim");
    }

    /** A group that is stopped reports what it has, what it can have at the most, and no more. */
    @Test
    void aStoppedGroupReportsWhatItHasSoFar() throws Exception {
        for (String aim : List.of("most", "skew")) {
            CommandRun none =
                    bus("pump/level/sample[*]", "header J1", "--aim", aim, "--within-ms", "0");
            assertThat(none.code()).isEqualTo(1);
            assertThat(none.out())
                    .contains("Not served: pump/level/sample[0], pump/level/sample[1]")
                    .contains("the search was stopped before it was known whether it can be.")
                    .contains(
                            "Stopped: 0 of 2 nets so far; at most 2 can be brought out together."
                                    + " Allow more time with --within-ms.")
                    .doesNotContain("Proven");
        }
        CommandRun json = bus("alarm/*", "header J2", "--within-ms", "0", "--json");
        assertThat(json.json().getAsJsonObject("bound").get("served").getAsInt()).isZero();
        assertThat(json.json().getAsJsonObject("bound").get("atMost").getAsInt()).isPositive();
        assertThat(json.json().has("proof")).isFalse();
        assertThat(bus("pump/level/sample[*]", "header J1", "--within-ms", "600000").out())
                .isEqualTo(bus("pump/level/sample[*]", "header J1").out());
        assertThat(bus("pump/level/sample[*]", "header J1", "--within-ms", "-1").code())
                .isEqualTo(2);
        // What was there before is not lost, and what there is so far can be kept.
        Path ledger = folder.resolve("kept.json");
        assertThat(bus("alarm/*", "header J2", "--within-ms", "0", "-l", ledger).code())
                .isEqualTo(1);
        assertThat(ledger).doesNotExist();
    }

    /** The group without the unblocking that was asked for is not taken for the one with it. */
    @Test
    void aStoppedUnblockingIsReportedAndNotRecorded() {
        Path ledger = folder.resolve("kept.json");
        CommandRun run = bus("alarm/*", "header J2", "--within-ms", "0", "--unblock", "-l", ledger);
        assertThat(run.code()).isEqualTo(1);
        assertThat(run.out())
                .contains(
                        "Unblocking was stopped before its end, so nothing is removed: this is the"
                                + " group without it. Nothing is recorded. Allow more time with"
                                + " --within-ms.");
        assertThat(ledger).doesNotExist();
        assertThat(bus("alarm/*", "header J2", "--within-ms", "0").out())
                .contains(
                        "The search was stopped before it was known what could be removed to serve"
                                + " more nets. Allow more time with --within-ms.");
        assertThat(
                        bus("alarm/*", "header J2", "--within-ms", "0", "--unblock", "--json")
                                .json()
                                .get("unblockingStopped")
                                .getAsBoolean())
                .isTrue();
        CommandRun whole =
                bus("alarm/*", "header J2", "--within-ms", "600000", "--unblock", "--json");
        assertThat(whole.json().has("unblockingStopped")).isFalse();
    }

    /** No time is set for what always runs to its end. */
    @Test
    void aTimeIsRefusedWhereItWouldNotBeKept() {
        for (List<String> other :
                List.of(List.of("--match-ps", "100"), List.of("--register", "clk12"))) {
            CommandRun run =
                    bus(
                            "pump/level/sample[*]",
                            "header J1",
                            "--within-ms",
                            "5",
                            other.get(0),
                            other.get(1));
            assertThat(run.code()).isEqualTo(2);
            assertThat(run.err())
                    .contains("--within-ms: expected no --match-ps or --register together with it")
                    .contains(String.join(" ", other));
        }
    }

    /** Matched lines take longer, on purpose. */
    @Test
    void matchedLinesSayWhatTheyCost() {
        CommandRun matched = bus("pump/level/sample[*]", "header J1", "--match-ps", "100");
        assertThat(matched.out()).contains("; matching the delays takes ");
        assertThat(bus("pump/level/sample[*]", "header J1", "--match-ps", "100000").out())
                .doesNotContain("takes ");
    }

    /** "The most signals of this module on the 40 pads of J2 and J3." */
    @Test
    void theMostSignalsOfAModuleOnTheFortyPadsOfTwoHeaders() throws Exception {
        Map<String, String> headers = new HashMap<>();
        String board = Files.readString(Path.of("fixtures/workbench/board.json"));
        for (JsonElement pad :
                JsonParser.parseString(board).getAsJsonObject().getAsJsonArray("pads")) {
            for (JsonElement part : pad.getAsJsonObject().getAsJsonArray("attached")) {
                String name = part.getAsJsonObject().get("name").getAsString();
                if (List.of("J2", "J3").contains(name)) {
                    headers.put(pad.getAsJsonObject().get("pad").getAsString(), name);
                }
            }
        }
        assertThat(headers).hasSize(40);
        Path workbench = Path.of("fixtures/workbench/design.json.gz");
        JsonObject group =
                CommandRun.of(
                                List.of(
                                                "bus",
                                                "-d",
                                                workbench,
                                                "-n",
                                                "pump/store/*",
                                                "-p",
                                                "header J2, header J3",
                                                "--json")
                                        .toArray())
                        .json();
        Set<String> pads = new HashSet<>();
        Set<String> used = new HashSet<>();
        for (JsonElement line : group.getAsJsonArray("lines")) {
            String pad = line.getAsJsonObject().get("pad").getAsString();
            assertThat(line.getAsJsonObject().get("net").getAsString()).startsWith("pump/store/");
            assertThat(headers).containsKey(pad);
            assertThat(pads.add(pad)).isTrue();
            used.add(headers.get(pad));
        }
        assertThat(used).containsExactlyInAnyOrder("J2", "J3");
        // All nets of the module have to pass as many wires, pins and pads as are served.
        JsonObject proof = group.getAsJsonObject("proof");
        assertThat(proof.getAsJsonArray("nets"))
                .hasSize(pads.size() + group.getAsJsonArray("notServed").size());
        assertThat(proof.getAsJsonArray("pass")).hasSize(pads.size());
        assertThat(proof.get("where").getAsString()).startsWith("tiles ");
        assertThat(proof.getAsJsonArray("usedBy")).isNotEmpty();
    }
}
