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
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * What happens on the board if a net is brought out on a pad? Ten pads of the two invented boards,
 * with what happens there written by hand from the files of boards, designs and fabrics. Every
 * command that a user may read must say it: ask, survey, keep, bus, sheet.
 */
class TenPadsTest {
    private static final Path PUMP = Path.of("fixtures/small/only.design.json");
    private static final Path GAUGE = Path.of("fixtures/lessons/gated.design.json");

    @TempDir private Path folder;

    /**
     * A pad, and what happens.
     *
     * @param ask how it is named in the question
     * @param answer the word of the answer
     * @param port the port that has the pad; empty for none
     * @param follows what on the board will follow the net
     * @param drives what on the board drives the pad
     * @param lost what else loses its signal
     * @param accept what must be accepted before it is kept
     * @param says what the first sentences and the cautions must say
     */
    private record Case(
            Path design,
            String net,
            String ask,
            String answer,
            String port,
            List<String> follows,
            List<String> drives,
            List<String> lost,
            List<String> accept,
            List<String> says) {
        @Override
        public String toString() {
            return ask;
        }
    }

    private static Stream<Case> cases() {
        String hold = "pump/run/hold";
        return Stream.of(
                // Y1, the oscillator, drives this pin; all eight registers run on it.
                new Case(
                        PUMP,
                        hold,
                        "A1",
                        "blocked",
                        "clk12",
                        List.of(),
                        List.of("Y1.3"),
                        List.of(
                                "pump/level/hi_sync.clk",
                                "pump/level/lo_sync.clk",
                                "pump/level/sample[0].clk",
                                "pump/level/sample[1].clk",
                                "pump/run/hold.clk",
                                "pump/run/motor_out.clk",
                                "alarm/blink[0].clk",
                                "alarm/blink[1].clk"),
                        List.of("drives", "reads"),
                        List.of(
                                "Y1 pin 3 on the board drives pad x0y1/pad[0] against the chip.",
                                "driver Y1 pin 3 can drive this pad",
                                "Port clk12 loses this pad.")),
                // The float switch's buffer U4 drives it, R11 pulls it; hi_sync reads it.
                new Case(
                        PUMP,
                        hold,
                        "A5",
                        "blocked",
                        "float_hi",
                        List.of(),
                        List.of("U4.2"),
                        List.of("pump/level/hi_sync.in[0]"),
                        List.of("drives", "reads"),
                        List.of(
                                "U4 pin 2 on the board drives pad x0y3/pad[0] against the chip.",
                                "R11 pulls this net to a rail that is not known")),
                // The buzzer's transistor listens: it will sound with the net.
                new Case(
                        PUMP,
                        hold,
                        "B3",
                        "takes-port",
                        "buzzer",
                        List.of("Q3.gate"),
                        List.of(),
                        List.of(),
                        List.of("follows"),
                        List.of(
                                "Q3 pin gate will follow pump/run/hold.",
                                "Make the load safe or disconnect it first")),
                // A header pin, nothing else.
                new Case(
                        PUMP,
                        hold,
                        "J1.1",
                        "open",
                        "",
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of("the voltage of bank B (3.3 V)")),
                // The motor's driver listens: it obeys the net; its own register goes.
                new Case(
                        PUMP,
                        "pump/level/sample[1]",
                        "J1.3",
                        "blocked",
                        "motor",
                        List.of("U7.4"),
                        List.of(),
                        List.of(),
                        List.of("follows"),
                        List.of(
                                "U7 pin 4 will follow pump/level/sample[1].",
                                "net pump/run/motor_out is removed",
                                "The pad drives 3.3 V: check that U7.4 tolerates it")),
                // The lamp lights with the net; nothing that can move listens.
                new Case(
                        PUMP,
                        hold,
                        "TP5",
                        "takes-port",
                        "lamp",
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(
                                "net alarm/blink[1] keeps its other sinks",
                                "Light D2 lights with the signal")),
                // No driver in the chip.
                new Case(
                        PUMP,
                        hold,
                        "F3",
                        "no-route",
                        "",
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of("pin F3 (VERSION0) is input-only")),
                // A free header pin; the buzzer's net makes room and still arrives.
                new Case(
                        PUMP,
                        hold,
                        "J2.1",
                        "blocked",
                        "",
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(
                                "Net alarm/beep can be rerouted",
                                "arrival at port buzzer unchanged")),
                // The board's file does not have this pin.
                new Case(
                        PUMP,
                        hold,
                        "A3",
                        "open",
                        "",
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of("Nothing is known about what the board connects to this pin.")),
                // A data line whose driver a register switches: both registers go.
                new Case(
                        GAUGE,
                        "gauge/depth",
                        "J1.1",
                        "blocked",
                        "data",
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(
                                "Cell gauge/data_on only enables this pad's driver for port data.",
                                "Once it is removed, the enable must be tied on, and the pad then"
                                        + " drives all the time.")),
                // A free pin whose driver is off while nothing switches it on.
                new Case(
                        GAUGE,
                        "gauge/depth",
                        "C6",
                        "open",
                        "",
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(),
                        List.of(
                                "Open once the enable is tied on",
                                "it must be tied on (which level that is, the device's data sheet"
                                        + " says)")));
    }

    @ParameterizedTest
    @MethodSource("cases")
    void whatHappensIsSaid(Case given) throws Exception {
        JsonObject asked = run(given, "ask", "--json").json();
        assertThat(asked.get("answer").getAsString()).isEqualTo(given.answer());
        boolean routed = !given.answer().equals("no-route");
        if (routed) {
            samePrice(given, asked.getAsJsonObject("price"));
        }
        String text = run(given, "ask").out();
        assertThat(text).contains(given.says());
        if (!given.port().isEmpty()) {
            assertThat(text).contains("Port " + given.port() + " loses this pad.");
        }
        JsonObject surveyed = surveyed(given, asked.get("pad").getAsString());
        if (routed) {
            assertThat(texts(surveyed.getAsJsonObject("price"), "losesPad"))
                    .isEqualTo(texts(asked.getAsJsonObject("price"), "losesPad"));
        }
        String reason = surveyed.get("rankReason").getAsString();
        given.follows().forEach(f -> assertThat(reason).contains(f + " follows"));
        given.drives().forEach(d -> assertThat(reason).contains(d + " drives"));
        assertThat(reason).contains(given.port());
        List<String> driven = alone(given);
        assertThat(driven.isEmpty())
                .as("bus takes no port's pad, and removes nothing, unless it is told to")
                .isEqualTo(!given.answer().equals("open"));
        if (routed) {
            kept(given, asked.get("pad").getAsString());
        }
    }

    /**
     * The net of a circuit is new with the entry; its pad's cautions are on the sheet all the same.
     */
    @Test
    void aWatchCircuitsPadHasItsCautionsOnTheSheet() throws Exception {
        Path ledger = folder.resolve("w.json");
        Path sheet = folder.resolve("w.html");
        CommandRun watch =
                CommandRun.of(
                        "watch",
                        "trigger",
                        "-d",
                        PUMP,
                        "--when",
                        "pump/level/sample[0] && pump/level/sample[1]",
                        "--pad",
                        "A3",
                        "-l",
                        ledger);
        assertThat(watch.err()).isEmpty();
        CommandRun.of("sheet", "-d", PUMP, "-l", ledger, "-o", sheet);
        assertThat(Files.readString(sheet))
                .contains("Nothing is known about what the board connects to this pin.")
                .contains("the voltage of bank A (3.3 V)")
                .contains("While a design is loaded, outputs float");
    }

    /**
     * A group whose outputs switch together says so on the sheet, also where a port lost its pad.
     */
    @Test
    void aGroupThatTookAPortsPadSaysThatOutputsSwitchTogether() throws Exception {
        Path ledger = folder.resolve("g.json");
        Path sheet = folder.resolve("g.html");
        List<Object> words = new ArrayList<>(List.of("bus", "-d", PUMP, "--ledger", ledger));
        words.addAll(List.of("--pads", "TP5,D4,D5,E3,E4", "--may-disconnect"));
        for (String net : List.of("level/sample[*]", "run/hold", "run/decide")) {
            words.addAll(List.of("--nets", "pump/" + net));
        }
        words.addAll(List.of("--nets", "alarm/blink[0]"));
        CommandRun bus = CommandRun.of(words.toArray());
        assertThat(bus.err()).isEmpty();
        assertThat(bus.out()).contains("disconnect port lamp").contains("switch together");
        CommandRun.of("sheet", "-d", PUMP, "-l", ledger, "-o", sheet);
        assertThat(Files.readString(sheet)).contains("switch together");
    }

    private static void samePrice(Case given, JsonObject price) {
        List<String> ports = given.port().isEmpty() ? List.of() : List.of(given.port());
        List<String> lost = new ArrayList<>(given.lost());
        ports.forEach(p -> lost.add("port " + p));
        assertThat(texts(price, "losesPad")).containsExactlyElementsOf(ports);
        assertThat(parts(price, "follows")).containsExactlyElementsOf(given.follows());
        assertThat(parts(price, "drives")).containsExactlyElementsOf(given.drives());
        assertThat(texts(price, "losesSignal")).containsExactlyInAnyOrderElementsOf(lost);
        price.getAsJsonArray("follows")
                .forEach(
                        f ->
                                assertThat(f.getAsJsonObject().get("net").getAsString())
                                        .isEqualTo(given.net()));
    }

    /** Nothing is kept without a yes; what is kept is what was said, in file, list and sheet. */
    private void kept(Case given, String pad) throws Exception {
        Path ledger = folder.resolve("l.json");
        if (!given.accept().isEmpty()) {
            CommandRun refused = run(given, "keep", "--ledger", ledger);
            assertThat(refused.code()).isEqualTo(2);
            assertThat(refused.err()).contains(String.join(",", given.accept()));
            assertThat(ledger).doesNotExist();
        }
        List<Object> more = new ArrayList<>(List.of("--ledger", ledger));
        if (!given.accept().isEmpty()) {
            more.addAll(List.of("--accept", String.join(",", given.accept())));
        }
        CommandRun keep = run(given, "keep", more.toArray());
        assertThat(keep.err()).isEmpty();
        assertThat(keep.code()).isZero();
        Path changed = folder.resolve("changed.design.json");
        CommandRun apply =
                CommandRun.of("apply", "-d", given.design(), "-l", ledger, "-o", changed);
        assertThat(apply.err()).isEmpty();
        JsonObject after = JsonParser.parseString(Files.readString(changed)).getAsJsonObject();
        List<String> ports = new ArrayList<>();
        String added = "";
        for (JsonElement each : after.getAsJsonArray("ports")) {
            JsonObject port = each.getAsJsonObject();
            ports.add(port.get("name").getAsString());
            if (port.get("pad").getAsString().equals(pad)) {
                added = port.get("name").getAsString();
                boolean gated = given.design().equals(GAUGE);
                assertThat(port.toString().contains("tied")).isEqualTo(gated);
            }
        }
        assertThat(ports).doesNotContain(given.port());
        String sinks = "";
        for (JsonElement each : after.getAsJsonArray("nets")) {
            JsonObject net = each.getAsJsonObject();
            if (net.get("name").getAsString().equals(given.net())) {
                sinks = net.get("sinks").toString();
            }
            for (String end : given.lost()) {
                JsonObject at = new JsonObject();
                at.addProperty("cell", end.substring(0, end.lastIndexOf('.')));
                at.addProperty("pin", end.substring(end.lastIndexOf('.') + 1));
                assertThat(net.get("sinks").getAsJsonArray()).doesNotContain(at);
            }
        }
        assertThat(sinks).contains("\"port\":\"" + added + "\"");
        Path sheet = folder.resolve("s.html");
        CommandRun.of("sheet", "-d", given.design(), "-l", ledger, "-o", sheet);
        String page = Files.readString(sheet);
        given.follows()
                .forEach(f -> assertThat(page).contains(f.replace(".", " pin ") + " is an input"));
        given.drives()
                .forEach(d -> assertThat(page).contains(d.replace(".", " pin ") + " can drive"));
        if (!given.port().isEmpty()) {
            assertThat(page).contains("Port " + given.port() + " loses this pad.");
        }
        if (given.design().equals(GAUGE)) {
            assertThat(page)
                    .contains("is tied on: the pad drives all the time")
                    .doesNotContain("high-impedance");
        }
    }

    private static CommandRun run(Case given, String command, Object... more) {
        List<Object> words = new ArrayList<>(List.of(command, "--design", given.design()));
        words.addAll(List.of("--net", given.net(), "--pad", given.ask()));
        words.addAll(List.of(more));
        return CommandRun.of(words.toArray());
    }

    private static JsonObject surveyed(Case given, String pad) {
        CommandRun run =
                CommandRun.of("survey", "-d", given.design(), "--net", given.net(), "--json");
        for (JsonElement each : run.json().getAsJsonArray("answers")) {
            if (each.getAsJsonObject().get("pad").getAsString().equals(pad)) {
                return each.getAsJsonObject();
            }
        }
        throw new AssertionError(pad);
    }

    /** The pads that a group of this one net takes when it may use this pad alone. */
    private static List<String> alone(Case given) {
        CommandRun run =
                CommandRun.of(
                        "bus",
                        "-d",
                        given.design(),
                        "--nets",
                        given.net(),
                        "--pads",
                        given.ask(),
                        "--json");
        List<String> pads = new ArrayList<>();
        run.json()
                .getAsJsonArray("lines")
                .forEach(l -> pads.add(l.getAsJsonObject().get("pad").getAsString()));
        return pads;
    }

    private static List<String> texts(JsonObject of, String member) {
        List<String> result = new ArrayList<>();
        JsonArray all = of.getAsJsonArray(member);
        all.forEach(e -> result.add(e.getAsString()));
        return result;
    }

    private static List<String> parts(JsonObject price, String member) {
        List<String> result = new ArrayList<>();
        for (JsonElement each : price.getAsJsonArray(member)) {
            JsonObject part = each.getAsJsonObject();
            result.add(part.get("part").getAsString() + "." + part.get("pin").getAsString());
        }
        return result;
    }
}
