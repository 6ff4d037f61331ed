package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.Gson;
import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVParser;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * All commands calculate a line's delay from one chain: to the picosecond the same at the pin in
 * ask, survey, bus, sheet and SDF, and the same at the instrument in bus, sheet and deskew. Boards,
 * loads, layers, packages and leads are drawn.
 */
class OneChainTest {
    private static final int LINES = 200;

    @TempDir private Path folder;

    @Test
    void allCommandsGiveTheSameDelays() throws Exception {
        int lines = 0;
        int loaded = 0;
        for (long seed = 1; lines < LINES; seed++) {
            Random random = new Random(seed);
            Path design = draw(random);
            List<Object> leads =
                    List.of(
                            "--lead-m",
                            random.nextInt(4) / 10.0,
                            "--connector-ps",
                            random.nextInt(3) * 50,
                            "--probe-pf",
                            random.nextInt(20));
            List<String> nets =
                    new ArrayList<>(List.of("pump/level/sample[0]", "pump/level/sample[1]"));
            nets.addAll(List.of("pump/run/decide", "pump/run/hold"));
            Collections.shuffle(nets, random);
            Path ledger = folder.resolve("l" + seed + ".json");
            List<Object> group = new ArrayList<>(List.of("--json", "--ledger", ledger));
            nets.subList(0, 3).forEach(n -> group.addAll(List.of("--nets", n)));
            group.addAll(List.of("--pads", "any", "--aim", "skew"));
            JsonObject bus = run("bus", design, leads, group.toArray()).json();
            Map<String, CSVRecord> sheet = sheet(design, ledger, leads, seed);
            List<SdfReader.Interconnect> sdf = sdf(design, ledger, leads, seed);
            for (JsonElement each : bus.getAsJsonArray("lines")) {
                JsonObject line = each.getAsJsonObject();
                String net = line.get("net").getAsString();
                String pad = line.get("pad").getAsString();
                List<Integer> pin = pair(line.get("delay_ps"));
                List<Integer> instrument = pair(line.get("instrument_ps"));
                String seen = "seed " + seed + ", " + net + " on " + pad;
                CSVRecord row = sheet.get(net);
                assertThat(pair(row, "pad")).as(seen).isEqualTo(pin);
                assertThat(pair(row, "instrument")).as(seen).isEqualTo(instrument);
                List<String> wire =
                        sdf.stream()
                                .filter(i -> i.to().equals(row.get("port")))
                                .findFirst()
                                .orElseThrow()
                                .delays()
                                .get(0);
                assertThat(List.of(wire.get(0), wire.get(2)))
                        .as(seen)
                        .containsExactly("" + pin.get(0), "" + pin.get(1));
                // Alone on the design: the others of the group can make a detour necessary.
                JsonObject ask =
                        run("ask", design, List.of(), "--net", net, "--pad", pad, "--json").json();
                JsonObject surveyed = surveyed(design, net, pad);
                assertThat(pair(surveyed.get("delay_ps")))
                        .as(seen)
                        .isEqualTo(pair(ask.get("delay_ps")));
                JsonObject alone =
                        run(
                                        "bus",
                                        design,
                                        leads,
                                        "--nets",
                                        net,
                                        "--pads",
                                        pad,
                                        "--json",
                                        "--may-disconnect")
                                .json();
                JsonObject only = alone.getAsJsonArray("lines").get(0).getAsJsonObject();
                assertThat(pair(only.get("delay_ps")))
                        .as(seen)
                        .isEqualTo(pair(ask.get("delay_ps")));
                loaded += instrument.get(1) != pin.get(1) ? 1 : 0;
                lines++;
            }
            deskewed(sheet, folder.resolve("s" + seed + ".csv"));
        }
        assertThat(loaded).isGreaterThan(LINES / 2);
    }

    /** Matching uses the same delays: what it says is left is what the sheet's delays differ by. */
    @Test
    void matchingSeesTheLoads() throws Exception {
        Path design = draw(new Random(7));
        load(0, 40);
        load(1, 5);
        Path ledger = folder.resolve("m.json");
        JsonObject bus =
                run(
                                "bus",
                                design,
                                List.of(),
                                "--nets",
                                "pump/level/sample[*]",
                                "--pads",
                                "J1.1,J1.2",
                                "--match-ps",
                                50,
                                "--json",
                                "--ledger",
                                ledger)
                        .json();
        Map<String, CSVRecord> sheet = sheet(design, ledger, List.of(), 0);
        List<Integer> slow =
                sheet.values().stream().map(r -> pair(r, "instrument").get(1)).toList();
        int apart = Math.abs(slow.get(0) - slow.get(1));
        JsonObject matched = bus.getAsJsonObject("matched");
        // 35 pF on 45 ohms are ln 2 R C = 1.09 ns, which no detour on so small a fabric takes.
        assertThat(matched.get("before_ps").getAsInt()).isGreaterThan(900);
        assertThat(matched.get("after_ps").getAsInt())
                .isCloseTo(apart, org.assertj.core.api.Assertions.within(200));
    }

    /** Where the fabric does not state what load does, nothing is said about it. */
    @Test
    void aLoadThatDoesNotMatterIsNotMissed() throws Exception {
        Path design = CommandRun.copyExample(folder);
        String[] bus = {"--nets", "pump/level/sample[*]", "--pads", "J1.1,J1.2"};
        assertThat(run("bus", design, List.of(), (Object[]) bus).out())
                .contains("add to time stamps")
                .doesNotContain("Load not stated", "with the loads");
    }

    /** An unknown load is the rated one at both corners, and that is said. */
    @Test
    void anUnknownLoadIsTheRatedOne() throws Exception {
        Path design = CommandRun.copyExample(folder);
        withOutput(new Random(3));
        CommandRun run =
                run(
                        "bus",
                        design,
                        List.of("--probe-pf", 4),
                        "--nets",
                        "pump/level/sample[*]",
                        "--pads",
                        "J1.1,J1.2");
        assertThat(run.out()).contains("Load not stated, so the rated load is taken: all pads.");
        JsonObject line =
                run(
                                "bus",
                                design,
                                List.of("--probe-pf", 4),
                                "--nets",
                                "pump/run/hold",
                                "--pads",
                                "J1.1",
                                "--json")
                        .json()
                        .getAsJsonArray("lines")
                        .get(0)
                        .getAsJsonObject();
        // 17 mm of an outer trace, 5.5 ps/mm, are all that is added, 10 % either way.
        List<Integer> pin = pair(line.get("delay_ps"));
        List<Integer> there = pair(line.get("instrument_ps"));
        assertThat(there.get(0) - pin.get(0)).isEqualTo(84);
        assertThat(there.get(1) - pin.get(1)).isEqualTo(103);
    }

    private static List<Integer> pair(JsonElement delay) {
        JsonArray both = delay.getAsJsonArray();
        return List.of(both.get(0).getAsInt(), both.get(1).getAsInt());
    }

    private static List<Integer> pair(CSVRecord row, String at) {
        return List.of(
                Integer.parseInt(row.get(at + "Fast_ps")),
                Integer.parseInt(row.get(at + "Slow_ps")));
    }

    private static CommandRun run(String command, Path design, List<Object> leads, Object... more) {
        List<Object> words = new ArrayList<>(List.of(command, "--design", design));
        words.addAll(leads);
        words.addAll(List.of(more));
        CommandRun run = CommandRun.of(words.toArray());
        assertThat(run.code()).as(run.err() + run.out()).isLessThan(2);
        return run;
    }

    private JsonObject surveyed(Path design, String net, String pad) {
        for (JsonElement one :
                run("survey", design, List.of(), "--net", net, "--json")
                        .json()
                        .getAsJsonArray("answers")) {
            if (one.getAsJsonObject().get("pad").getAsString().equals(pad)) {
                return one.getAsJsonObject();
            }
        }
        throw new AssertionError(pad);
    }

    private Map<String, CSVRecord> sheet(Path design, Path ledger, List<Object> leads, long seed)
            throws Exception {
        Path file = folder.resolve("s" + seed + ".csv");
        run("sheet", design, leads, "--ledger", ledger, "-o", file);
        CSVFormat format = CSVFormat.RFC4180.builder().setHeader().setSkipHeaderRecord(true).get();
        Map<String, CSVRecord> rows = new HashMap<>();
        try (CSVParser parser = format.parse(new StringReader(Files.readString(file)))) {
            parser.forEach(r -> rows.put(r.get("net"), r));
        }
        return rows;
    }

    private List<SdfReader.Interconnect> sdf(
            Path design, Path ledger, List<Object> leads, long seed) throws Exception {
        Path file = folder.resolve("s" + seed + ".sdf");
        run("sheet", design, leads, "--ledger", ledger, "-o", file);
        return SdfReader.read(Files.readString(file)).interconnects();
    }

    /** The delays that deskew prints are those of the sheet. */
    private void deskewed(Map<String, CSVRecord> sheet, Path file) throws Exception {
        Path capture = folder.resolve("c.csv");
        String names = String.join(",", sheet.keySet());
        String zeros = ",0".repeat(sheet.size());
        String ones = ",1".repeat(sheet.size());
        Files.writeString(capture, "time_ns," + names + "\n0" + zeros + "\n100" + ones + "\n");
        CommandRun run =
                CommandRun.of("deskew", capture, "--sheet", file, "-o", folder.resolve("d.csv"));
        assertThat(run.code()).as(run.err()).isZero();
        for (CSVRecord row : sheet.values()) {
            List<Integer> there = pair(row, "instrument");
            assertThat(run.out())
                    .containsPattern(
                            "\\Q"
                                    + row.get("net")
                                    + "\\E +\\Q"
                                    + new padward.fabric.delay.Delay(there.get(0), there.get(1))
                                            .toText());
        }
    }

    /** The small example with drawn drivers, packages and a drawn board. */
    private Path draw(Random random) throws Exception {
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Files.writeString(
                    folder.resolve(name), Files.readString(Path.of("fixtures/small", name)));
        }
        withOutput(random);
        JsonObject board = json("board.json");
        for (JsonElement each : board.getAsJsonArray("pads")) {
            JsonObject pad = each.getAsJsonObject();
            pad.addProperty("trace_mm", random.nextInt(120));
            if (random.nextBoolean()) {
                pad.addProperty("layer", "inner");
            }
            if (random.nextInt(3) == 0) {
                pad.addProperty("load_pf", 5 + random.nextInt(60));
            }
            for (JsonElement part : pad.getAsJsonArray("attached")) {
                if (random.nextBoolean()) {
                    part.getAsJsonObject().addProperty("pf", 3 + random.nextInt(9));
                }
            }
        }
        write("board.json", board);
        return folder.resolve("only.design.json");
    }

    private void withOutput(Random random) throws Exception {
        JsonObject fabric = json("only.fabric.json");
        for (JsonElement each : fabric.getAsJsonArray("settings")) {
            JsonObject output =
                    JsonParser.parseString(
                                    "{'rated_pf': 15, 'rise_ps': [800, 1500], 'ohms': [45, 45]}")
                            .getAsJsonObject();
            each.getAsJsonObject().add("output", output);
        }
        for (JsonElement each : fabric.getAsJsonArray("pads")) {
            if (random.nextBoolean()) {
                JsonArray delay = new JsonArray();
                delay.add(40 + random.nextInt(50));
                delay.add(100 + random.nextInt(50));
                each.getAsJsonObject().add("package_ps", delay);
            }
        }
        if (random.nextBoolean()) {
            fabric.getAsJsonArray("pads").forEach(p -> p.getAsJsonObject().remove("package_ps"));
        }
        write("only.fabric.json", fabric);
    }

    private void load(int pin, int picofarads) throws Exception {
        JsonObject board = json("board.json");
        for (JsonElement each : board.getAsJsonArray("pads")) {
            JsonObject pad = each.getAsJsonObject();
            if (pad.get("net").getAsString().equals("DBG" + pin)) {
                pad.addProperty("trace_mm", 10);
                pad.addProperty("load_pf", picofarads);
            }
        }
        write("board.json", board);
    }

    private JsonObject json(String name) throws Exception {
        return JsonParser.parseString(Files.readString(folder.resolve(name))).getAsJsonObject();
    }

    private void write(String name, JsonObject value) throws Exception {
        Files.writeString(folder.resolve(name), new Gson().toJson(value));
    }
}
