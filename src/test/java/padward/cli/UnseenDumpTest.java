package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.format.tables.TableImport;

/**
 * A dump as a user's script writes it who has only read the page on own devices, with conventions
 * that are not ours: names that state no place and contain separators and quotation marks, rows
 * counted from the top in them, rows of tables in no order, every field quoted or none, semicolons,
 * nanoseconds, a wire of 200 names, multiplexers numbered in hexadecimal, unbonded pads.
 */
class UnseenDumpTest {
    private static final int COLUMNS = 6;
    private static final int ROWS = 5;
    private static final int NAMES = 200;
    private static final String DIRECTIONS = "EWNS";

    @TempDir Path folder;
    private final Random random = new Random(18);

    /**
     * What is said of a switch.
     *
     * @param group its group, "" for none
     */
    private record Row(String group, String tile) {}

    /** By the names of its ends. */
    private final Map<List<String>, Row> switches = new HashMap<>();

    private static String tile(int column, int row) {
        return String.format("R%02XC%d", ROWS - 1 - row, column);
    }

    private static boolean isInside(int column, int row) {
        return column >= 0 && column < COLUMNS && row >= 0 && row < ROWS;
    }

    private static String wire(char direction, int column, int row, int track) {
        return "«" + tile(column, row) + "» trk;\"" + direction + "\"<" + track + ">, x9y";
    }

    private static int stepX(char direction) {
        return direction == 'E' ? 1 : direction == 'W' ? -1 : 0;
    }

    private static int stepY(char direction) {
        return direction == 'N' ? 1 : direction == 'S' ? -1 : 0;
    }

    private static boolean hasWire(char direction, int column, int row) {
        return isInside(column, row) && isInside(column + stepX(direction), row + stepY(direction));
    }

    private static boolean hasSite(int column) {
        return column > 0 && column < COLUMNS - 1;
    }

    private static String pin(int column, int row, String pin) {
        return "LB.7 " + tile(column, row) + "." + pin;
    }

    private static String pad(int column, int row) {
        return "ball " + (column == 0 ? "AÅ" : "Z#") + row;
    }

    /** The wires that end in a tile. */
    private static List<String> arriving(int column, int row) {
        List<String> result = new ArrayList<>();
        for (char direction : DIRECTIONS.toCharArray()) {
            int x = column - stepX(direction);
            int y = row - stepY(direction);
            for (int track = 0; track < 2 && hasWire(direction, x, y); track++) {
                result.add(wire(direction, x, y, track));
            }
        }
        return result;
    }

    /**
     * Writes a table whose first row is its head, the others shuffled unless they have an order.
     */
    private void table(String name, char separator, boolean quoted, boolean ordered, Object... rows)
            throws IOException {
        List<String> lines = new ArrayList<>();
        for (Object row : rows) {
            List<String> fields = new ArrayList<>();
            for (Object field : (List<?>) row) {
                String text = field.toString();
                boolean odd = text.indexOf('"') >= 0 || text.indexOf(separator) >= 0;
                fields.add(quoted || odd ? '"' + text.replace("\"", "\"\"") + '"' : text);
            }
            lines.add(String.join(String.valueOf(separator), fields));
        }
        if (!ordered) {
            Collections.shuffle(lines.subList(1, lines.size()), random);
        }
        Files.writeString(folder.resolve(name + ".csv"), String.join("\r\n", lines) + "\n\n");
    }

    @BeforeEach
    void dump() throws IOException {
        dumpWires();
        dumpSites();
        dumpSwitches();
        dumpDesign();
    }

    private void dumpWires() throws IOException {
        List<Object> wires = new ArrayList<>();
        wires.add(List.of("ROW", "Column", "name", "to_column", "to_row", "kind", "#note"));
        wires.add(List.of(2, 0, "spine & ribs", 0, 2, "global", "200 names"));
        for (int row = 0; row < ROWS; row++) {
            for (int column = 0; column < COLUMNS; column++) {
                for (char direction : DIRECTIONS.toCharArray()) {
                    for (int track = 0; track < 2 && hasWire(direction, column, row); track++) {
                        int x = column + stepX(direction);
                        int y = row + stepY(direction);
                        String name = wire(direction, column, row, track);
                        wires.add(List.of(row, column, name, x, y, "trk" + direction, ""));
                    }
                }
            }
        }
        table("wires", ';', true, false, wires.toArray());
        List<Object> taps = new ArrayList<>();
        taps.add(List.of("wire", "name", "column", "row"));
        for (int i = 0; i < NAMES; i++) {
            int at = i % (COLUMNS * ROWS);
            taps.add(List.of("spine & ribs", alias(i), at % COLUMNS, at / COLUMNS));
        }
        table("taps", '\t', false, true, taps.toArray());
    }

    private static String alias(int number) {
        return "rib " + number + " of «spine»";
    }

    private void dumpSites() throws IOException {
        List<Object> sites = new ArrayList<>();
        List<Object> pins = new ArrayList<>();
        List<Object> pads = new ArrayList<>();
        sites.add(List.of("column", "row", "name", "kind", "accepts"));
        pins.add(List.of("direction", "site", "name"));
        pads.add(List.of("name", "column", "row", "package_pin", "bonded", "role", "directions"));
        for (int row = 0; row < ROWS; row++) {
            for (int column = 0; column < COLUMNS; column++) {
                if (hasSite(column)) {
                    String name = pin(column, row, "").replaceFirst("\\.$", "");
                    sites.add(List.of(column, row, name, "blk", "ff|lut"));
                    pins.add(List.of("in", name, "A"));
                    pins.add(List.of("in", name, "B"));
                    pins.add(List.of("in", name, "CK"));
                    pins.add(List.of("out", name, "Q"));
                } else {
                    boolean bonded = row != 1;
                    String role = row == 0 && column == 0 ? "configuration" : "";
                    pads.add(
                            List.of(
                                    pad(column, row),
                                    column,
                                    row,
                                    bonded ? (column == 0 ? "P" : "N") + row : "",
                                    bonded ? "" : "no",
                                    role,
                                    "both"));
                }
            }
        }
        table("sites", ',', false, false, sites.toArray());
        table("pins", ',', true, false, pins.toArray());
        table("pads", ';', false, false, pads.toArray());
        Files.writeString(folder.resolve("cell_kinds.csv"), "holds_state,name\nyes,ff\nNo,lut\n");
    }

    private void dumpSwitches() throws IOException {
        List<Object> rows = new ArrayList<>();
        rows.add(List.of("group", "to", "from", "slow_ns", "fast_ns", "column", "row"));
        for (int row = 0; row < ROWS; row++) {
            for (int column = 0; column < COLUMNS; column++) {
                for (char direction : DIRECTIONS.toCharArray()) {
                    for (int track = 0; track < 2 && hasWire(direction, column, row); track++) {
                        String to = wire(direction, column, row, track);
                        // two tracks to the east share one multiplexer in the middle
                        boolean shared = direction == 'E' && column == 2 && row == 2;
                        String mux = shared ? "0xBEEF;mux" : "";
                        for (String from : arriving(column, row)) {
                            add(rows, from, to, mux, column, row);
                        }
                        if (hasSite(column)) {
                            boolean own = !shared && "EN".indexOf(direction) >= 0 && track == 0;
                            String group = own ? "hex:" + (column * 31 + row * 7) : mux;
                            add(rows, pin(column, row, "Q"), to, group, column, row);
                        } else {
                            add(rows, pad(column, row), to, mux, column, row);
                        }
                    }
                }
                for (String from : arriving(column, row)) {
                    for (String input : hasSite(column) ? List.of("A", "B") : List.<String>of()) {
                        add(rows, from, pin(column, row, input), "", column, row);
                    }
                    if (!hasSite(column)) {
                        add(rows, from, pad(column, row), "", column, row);
                    }
                }
                if (hasSite(column)) {
                    int at = row * COLUMNS + column;
                    add(rows, alias(at + 60), pin(column, row, "CK"), "", column, row);
                }
            }
        }
        add(rows, pad(0, 2), "spine & ribs", "", 0, 2);
        table("switches", ',', false, false, rows.toArray());
        Files.writeString(
                folder.resolve("delays.csv"),
                "enters,slow_ns,fast_ns\npad,1.5,0.75\nwire,0.4,0.2\npin,.2,.1\n");
    }

    private void add(List<Object> rows, String from, String to, String group, int column, int row) {
        boolean stated = random.nextBoolean();
        rows.add(List.of(group, to, from, stated ? "0.35" : "", stated ? "0.3" : "", column, row));
        String canonical = from.startsWith("rib ") ? "spine & ribs" : from;
        switches.put(List.of(canonical, to), new Row(group, "x" + column + "y" + row));
    }

    private void dumpDesign() throws IOException {
        table(
                "cells",
                ',',
                true,
                false,
                List.of("site", "name", "kind"),
                List.of("LB.7 " + tile(1, 2), "top/u 1", "ff"),
                List.of("LB.7 " + tile(3, 3), "top/u,2", "ff"));
        table(
                "ports",
                ',',
                false,
                false,
                List.of("package_pin", "name", "direction"),
                List.of("P2", "din", "in"),
                List.of("N2", "dout", "out"));
        table(
                "nets",
                ',',
                false,
                false,
                List.of("name"),
                List.of("top/q"),
                List.of("top/n,2"),
                List.of("din"));
        table(
                "ends",
                ',',
                false,
                false,
                List.of("cell", "pin", "port", "net"),
                List.of("top/u 1", "Q", "", "top/q"),
                List.of("", "", "dout", "top/q"),
                List.of("top/u,2", "Q", "", "top/n,2"),
                List.of("top/u 1", "B", "", "top/n,2"),
                List.of("", "", "din", "din"),
                List.of("top/u 1", "A", "", "din"));
        List<Object> routes = new ArrayList<>();
        routes.add(List.of("to", "from", "net"));
        route(
                routes,
                "top/q",
                pin(1, 2, "Q"),
                wire('E', 1, 2, 0),
                wire('E', 2, 2, 0),
                wire('E', 3, 2, 0),
                wire('E', 4, 2, 0),
                pad(5, 2));
        route(
                routes,
                "top/n,2",
                pin(3, 3, "Q"),
                wire('W', 3, 3, 0),
                wire('W', 2, 3, 0),
                wire('S', 1, 3, 0),
                pin(1, 2, "B"));
        route(routes, "din", pad(0, 2), wire('E', 0, 2, 1), pin(1, 2, "A"));
        table("routes", '\t', true, false, routes.toArray());
    }

    private static void route(List<Object> rows, String net, String... hops) {
        for (int i = 1; i < hops.length; i++) {
            rows.add(List.of(hops[i], hops[i - 1], net));
        }
    }

    @Test
    void itIsImportedCheckedAndAsked() throws IOException {
        Path out = folder.resolve("read in");
        CommandRun read = CommandRun.of("import", "--tables", folder, "-o", out);
        assertThat(read.code()).as(read.err()).isZero();
        Path design = out.resolve("design.json.gz");
        CommandRun check = CommandRun.of("check", design);
        assertThat(check.code()).as(check.err()).isZero();
        Set<String> statuses = new HashSet<>();
        for (String net : List.of("top/q", "top/n,2", "din")) {
            for (int row = 0; row < ROWS; row++) {
                for (int column : new int[] {0, COLUMNS - 1}) {
                    JsonObject answer =
                            CommandRun.of(
                                            "ask",
                                            "-d",
                                            design,
                                            "-n",
                                            net,
                                            "-p",
                                            pad(column, row),
                                            "--json")
                                    .json();
                    statuses.add(answer.get("answer").getAsString());
                    requireRoute(answer);
                }
            }
        }
        assertThat(statuses).contains("open", "blocked", "takes-port");
        List<String> offered = new ArrayList<>();
        CommandRun.of("survey", "-d", design, "-n", "top/q", "--json")
                .json()
                .getAsJsonArray("answers")
                .forEach(p -> offered.add(p.getAsJsonObject().get("pad").getAsString()));
        assertThat(offered)
                .contains(pad(5, 0), pad(0, 4))
                .doesNotContain(pad(0, 1), pad(5, 1), pad(0, 0));
    }

    /** Each step of a route is a row of the table, in its tile; no two are of one group. */
    private void requireRoute(JsonObject answer) {
        Set<String> groups = new HashSet<>();
        String before = "";
        for (JsonElement each : answer.getAsJsonArray("hops")) {
            JsonObject hop = each.getAsJsonObject();
            String name = hop.get("vertex").getAsString();
            if (!before.isEmpty()) {
                Row row = switches.get(List.of(before, name));
                assertThat(row).as("%s to %s", before, name).isNotNull();
                assertThat(hop.get("tile").getAsString()).isEqualTo(row.tile());
                assertThat(row.group().isEmpty() || groups.add(row.group())).isTrue();
            }
            before = name;
        }
    }

    /** The names of the wire are 200, and each of them is that wire's. */
    @Test
    void aWireOfManyNamesIsFoundByEach() throws Exception {
        Fabric fabric = ((TableImport.Sound) TableImport.read(folder, 1, Progress.NONE)).fabric();
        int spine = fabric.findVertex("spine & ribs");
        for (int i = 0; i < NAMES; i++) {
            assertThat(fabric.findVertex(alias(i))).isEqualTo(spine);
        }
        assertThat(fabric.taps(spine)).hasSize(NAMES);
    }
}
