package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.fabric.Pad;
import padward.format.design.DesignWriter;
import padward.format.fabric.PatternWriter;
import padward.synth.DesignMaker;
import padward.synth.MadeDesign;

/**
 * All commands tell the same price for the same question, over JSON, on made designs with boards.
 */
class OnePriceProperties {
    private static final int EACH = 10;
    private static final String[] KINDS = {
        "header", "testpoint", "light", "load", "driver", "pull"
    };

    @TempDir private Path folder;
    private Path file;
    private int taken;
    private int applied;
    private int obstacles;
    private int movedNets;

    @Test
    void askSurveyBusKeepApplyDiffAndWhatIfTellTheSamePrice() throws Exception {
        compare(20);
    }

    @Test
    @Tag("slow")
    void forFiveHundredQuestionsToo() throws Exception {
        compare(500);
    }

    private void compare(int questions) throws Exception {
        Map<String, Integer> seen = new HashMap<>();
        for (int i = 0; i * EACH < questions; i++) {
            long seed = 7_000 + i;
            Random random = new Random(seed);
            Design design = make(seed, random);
            Net net = net(design, random);
            Map<String, JsonObject> survey = survey(net);
            for (int j = 0; j < EACH; j++) {
                Pad pad = pad(design, random);
                JsonObject ask = ask(net, pad);
                String what = "seed " + seed + ", " + net.name() + " on " + pad.name();
                seen.merge(ask.get("answer").getAsString(), 1, Integer::sum);
                check(design, net, pad, ask, survey.get(pad.name()), what);
            }
            checkNoPortIsTaken(design, random, "seed " + seed);
        }
        assertThat(seen.keySet()).as("kinds of answers seen").contains("open", "takes-port");
        assertThat(taken).as("groups that take a port with the option").isPositive();
        assertThat(applied).as("kept and applied").isGreaterThan(questions / 4);
        assertThat(obstacles).as("obstacles of what was applied").isPositive();
    }

    private Design make(long seed, Random random) throws Exception {
        MadeDesign made = DesignMaker.make(1_500, seed, 0.5, Progress.NONE);
        Path fabric = folder.resolve("fabric.json");
        PatternWriter.write(made.spec().orElseThrow(), fabric);
        Files.writeString(folder.resolve("board.json"), board(made.design(), random));
        file = folder.resolve("design.json");
        DesignWriter.write(made.design(), file, "fabric.json", "board.json");
        return made.design();
    }

    private static String board(Design design, Random random) {
        List<String> pads = new ArrayList<>();
        for (Pad pad : design.fabric().pads()) {
            if (random.nextInt(4) > 0) {
                String kind = KINDS[random.nextInt(KINDS.length)];
                pads.add(
                        String.format(
                                "{\"pad\": \"%s\", \"net\": \"B%d\", \"attached\":"
                                        + " [{\"kind\": \"%s\", \"name\": \"U%d\"}]}",
                                pad.name(), pads.size(), kind, pads.size()));
            }
        }
        return "{\"format\": \"padward-board/1\", \"name\": \"made\", \"note\": \"Invented.\","
                + " \"pads\": ["
                + String.join(", ", pads)
                + "]}";
    }

    private static Net net(Design design, Random random) {
        while (true) {
            Net net = design.nets().get(random.nextInt(design.nets().size()));
            if (!net.clock()) {
                return net;
            }
        }
    }

    /** Half of the pads drawn have ports. */
    private static Pad pad(Design design, Random random) {
        List<Pad> pads = design.fabric().pads();
        if (random.nextBoolean()) {
            Port port = design.ports().get(random.nextInt(design.ports().size()));
            return pads.get(port.pad());
        }
        return pads.get(random.nextInt(pads.size()));
    }

    private Map<String, JsonObject> survey(Net net) {
        JsonObject all = CommandRun.of("survey", "-d", file, "-n", net.name(), "--json").json();
        Map<String, JsonObject> result = new HashMap<>();
        for (JsonElement one : all.getAsJsonArray("answers")) {
            result.put(one.getAsJsonObject().get("pad").getAsString(), one.getAsJsonObject());
        }
        return result;
    }

    private JsonObject ask(Net net, Pad pad, Object... more) {
        List<Object> words =
                new ArrayList<>(
                        List.of("ask", "-d", file, "-n", net.name(), "-p", pad.name(), "--json"));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray()).json();
    }

    private void check(
            Design design, Net net, Pad pad, JsonObject ask, JsonObject surveyed, String what)
            throws Exception {
        assertThat(surveyed.get("answer")).as(what).isEqualTo(ask.get("answer"));
        if (ask.get("answer").getAsString().equals("no-route")) {
            assertThat(ask.has("price")).as(what).isFalse();
            return;
        }
        JsonObject price = ask.getAsJsonObject("price");
        String kind = ask.get("answer").getAsString();
        for (String part : List.of("losesPad", "follows", "drives")) {
            assertThat(surveyed.getAsJsonObject("price").get(part))
                    .as("survey, %s, %s", part, what)
                    .isEqualTo(price.get(part));
        }
        if (!kind.equals("blocked")) {
            assertThat(surveyed.get("price")).as("survey, " + what).isEqualTo(price);
        }
        assertThat(kind.equals("takes-port") ? 1 : 0)
                .as(what)
                .isEqualTo(kind.equals("blocked") ? 0 : price.getAsJsonArray("losesPad").size());
        checkKept(net, pad, price, what);
        checkBus(net, pad, price, what);
        checkWhatIf(design, net, pad, ask, what);
    }

    private void checkKept(Net net, Pad pad, JsonObject price, String what) throws Exception {
        Path ledger = folder.resolve("l.json");
        Files.deleteIfExists(ledger);
        CommandRun kept =
                CommandRun.of(
                        "keep",
                        "-d",
                        file,
                        "-n",
                        net.name(),
                        "-p",
                        pad.name(),
                        "-l",
                        ledger,
                        "--json",
                        "--accept",
                        "drives,follows,reads");
        if (kept.code() == 0) {
            assertThat(kept.json().get("price")).as("keep, " + what).isEqualTo(price);
            checkApplied(ledger, price, what);
        } else {
            assertThat(kept.err()).as("keep, " + what).contains("that the net is not on");
        }
    }

    /** What is read from a ledger costs what it cost when it was kept, whatever the order. */
    private void checkApplied(Path ledger, JsonObject price, String what) {
        Path changed = folder.resolve("changed.json");
        JsonObject report =
                CommandRun.of("apply", "-d", file, "-l", ledger, "-o", changed, "--json").json();
        JsonObject entry = report.getAsJsonArray("entries").get(0).getAsJsonObject();
        same(entry.getAsJsonObject("price"), price, "apply, " + what);
        JsonObject diff = CommandRun.of("diff", file, ledger, "--json").json();
        same(diff.getAsJsonObject("price"), price, "diff, " + what);
        applied++;
        obstacles += price.getAsJsonArray("obstacles").size();
        movedNets += price.getAsJsonArray("moved").size();
    }

    private static void same(JsonObject one, JsonObject other, String what) {
        assertThat(one.keySet()).as(what).isEqualTo(other.keySet());
        for (String member : other.keySet()) {
            if (other.get(member).isJsonArray()) {
                assertThat(one.getAsJsonArray(member))
                        .as("%s, %s", what, member)
                        .containsExactlyInAnyOrderElementsOf(other.getAsJsonArray(member));
            }
        }
    }

    private void checkBus(Net net, Pad pad, JsonObject price, String what) {
        JsonObject bus =
                CommandRun.of(
                                "bus",
                                "-d",
                                file,
                                "-n",
                                net.name(),
                                "-p",
                                pad.name(),
                                "--json",
                                "--unblock",
                                "--may-disconnect")
                        .json();
        JsonArray lines = bus.getAsJsonArray("lines");
        if (!lines.isEmpty()) {
            assertThat(lines.get(0).getAsJsonObject().get("price"))
                    .as("bus, " + what)
                    .isEqualTo(price);
            assertThat(bus.get("price")).as("bus in all, " + what).isEqualTo(price);
        }
    }

    /** Doing by hand what the answer does costs what the answer costs. */
    private void checkWhatIf(Design design, Net net, Pad pad, JsonObject ask, String what) {
        JsonObject price = ask.getAsJsonObject("price");
        List<Object> edits = new ArrayList<>();
        for (JsonElement port : price.getAsJsonArray("losesPad")) {
            edits.addAll(List.of("--what-if", "disconnect port " + port.getAsString()));
        }
        if (!ask.get("answer").getAsString().equals("takes-port")) {
            return;
        }
        JsonObject report = ask(net, pad, edits.toArray());
        assertThat(report.getAsJsonObject("before").get("price")).as(what).isEqualTo(price);
        assertThat(report.get("price")).as("what-if, " + what).isEqualTo(price);
        assertThat(report.getAsJsonObject("after").get("answer").getAsString())
                .as(what)
                .isEqualTo("open");
    }

    private void checkNoPortIsTaken(Design design, Random random, String what) {
        List<Object> words = new ArrayList<>(List.of("bus", "-d", file, "--json", "--unblock"));
        for (int i = 0; i < 3; i++) {
            words.addAll(List.of("-n", net(design, random).name()));
        }
        String pads =
                random.ints(8, 0, design.fabric().pads().size())
                        .distinct()
                        .mapToObj(p -> design.fabric().pads().get(p).name())
                        .collect(Collectors.joining(","));
        words.addAll(List.of("-p", pads));
        JsonObject kept = CommandRun.of(words.toArray()).json();
        assertThat(kept.getAsJsonObject("price").getAsJsonArray("losesPad")).as(what).isEmpty();
        words.add("--may-disconnect");
        JsonObject free = CommandRun.of(words.toArray()).json();
        taken += free.getAsJsonObject("price").getAsJsonArray("losesPad").size();
    }
}
