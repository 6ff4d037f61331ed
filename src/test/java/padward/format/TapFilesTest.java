package padward.format;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.BadInput;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.pad.PadDirections;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;

/** Taps, names at taps and tiles of switches, in both forms of a fabric's files. */
class TapFilesTest {
    private static final int COLUMNS = 5;
    private static final int ROWS = 4;

    @TempDir private Path folder;

    /** Wires with taps anywhere, and switches of which some have a tile of their own. */
    private static Fabric irregular(long seed) {
        Random random = new Random(seed);
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("irregular", "", List.of(), List.of(), List.of()),
                        COLUMNS,
                        ROWS);
        int tiles = COLUMNS * ROWS;
        int wires = 10 + random.nextInt(20);
        for (int w = 0; w < wires; w++) {
            int tile = random.nextInt(tiles);
            builder.addWire(place(tile) + "/w" + w, tile, random.nextInt(tiles), "w");
        }
        for (int w = 0; w < wires; w++) {
            for (int n = random.nextInt(4); n > 0; n--) {
                int tile = random.nextInt(tiles);
                boolean named = random.nextBoolean();
                builder.addTap(w, tile, named ? place(tile) + "/w" + w + "_" + n : "");
            }
        }
        int pad = builder.addPad("x0y0/pad", 0, "1", "", PadDirections.OUT, -1, -1, "");
        builder.addEdge(0, pad, EdgeKind.CONNECTION, new Delay(1, 2));
        for (int e = 3 * wires; e > 0; e--) {
            int from = random.nextInt(wires);
            int to = (from + 1 + random.nextInt(wires - 1)) % wires;
            builder.addEdge(from, to, EdgeKind.SWITCH, new Delay(e, e + 1));
            if (random.nextBoolean()) {
                builder.setSwitchTile(from, to, random.nextInt(tiles));
            }
        }
        return builder.build();
    }

    private static String place(int tile) {
        return "x" + tile % COLUMNS + "y" + tile / COLUMNS;
    }

    private static void assertSame(Fabric expected, Fabric found) {
        assertThat(found.vertexCount()).isEqualTo(expected.vertexCount());
        EdgeCursor edges = expected.edgesOut();
        for (int v = 0; v < expected.vertexCount(); v++) {
            assertThat(found.taps(v)).isEqualTo(expected.taps(v));
            assertThat(found.listsTaps(v)).isEqualTo(expected.listsTaps(v));
            edges.reset(v);
            while (edges.next()) {
                assertThat(found.switchTile(v, edges.other()))
                        .isEqualTo(expected.switchTile(v, edges.other()));
            }
        }
    }

    private Fabric imported(Path tables) throws BadInput {
        TableImport.Result result = TableImport.read(tables, 10, Progress.NONE);
        assertThat(result).isInstanceOf(TableImport.Sound.class);
        return ((TableImport.Sound) result).fabric();
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20})
    void bothFormsKeepThemAll(long seed) throws Exception {
        Fabric fabric = irregular(seed);
        Path json = folder.resolve("one.fabric.json");
        FabricWriter.write(fabric, json);
        Fabric read = FabricReader.read(json, Progress.NONE);
        assertSame(fabric, read);
        Path tables = folder.resolve("tables");
        TableExport.write(read, tables, false, Progress.NONE);
        Fabric imported = imported(tables);
        assertSame(fabric, imported);
        Path again = folder.resolve("two.fabric.json");
        FabricWriter.write(imported, again);
        assertThat(again).hasSameBinaryContentAs(json);
    }

    private static final String WIRES = "name,to_tile\nx0y0/a,x2y0\nx1y0/b,x1y1\n";
    private static final String PADS = "name\nx1y1/pad\n";

    private TableImport.Result readTables(String taps, String switches) throws Exception {
        Files.writeString(folder.resolve("wires.csv"), WIRES);
        Files.writeString(folder.resolve("pads.csv"), PADS);
        Files.writeString(folder.resolve("taps.csv"), taps);
        Files.writeString(folder.resolve("switches.csv"), switches);
        return TableImport.read(folder, 10, Progress.NONE);
    }

    @Test
    void aSwitchMayNameAWireByAnyOfItsNames() throws Exception {
        TableImport.Result result =
                readTables(
                        "wire,tile,name\nx0y0/a,x0y0,\nx0y0/a,,x1y0/a_mid\nx0y0/a,x2y0,\n",
                        "from,to,delay_ps\nx1y0/a_mid,x1y0/b,10\nx1y0/b,x1y1/pad,10\n");
        Fabric fabric = ((TableImport.Sound) result).fabric();
        int a = fabric.findVertex("x0y0/a");
        assertThat(fabric.findVertex("x1y0/a_mid")).isEqualTo(a);
        assertThat(fabric.nameIn(a, 1)).isEqualTo("x1y0/a_mid");
        assertThat(fabric.nameIn(a, 2)).isEqualTo("x0y0/a");
        assertThat(fabric.switchTile(a, fabric.findVertex("x1y0/b"))).isEqualTo(1);
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "x0y0/c,x1y0,; taps.csv;row 2, column wire;the full name of a wire;\"x0y0/c\"",
                "x0y0/a,x1y0,x1y0/b; taps.csv;row 2, column name;"
                        + "a name that no other wire, pin or pad has;\"x1y0/b\" again",
                "x0y0/a,,; taps.csv;row 2, column name;a tile, or the wire's name there;"
                        + "neither of them",
                "x0y0/a,,mid; taps.csv;row 2, column tile;"
                        + "a tile, or a name that contains one, such as x3y4/…;no place in \"mid\""
            })
    void whatATapCannotBeIsReported(
            String row, String file, String place, String expected, String found) throws Exception {
        TableImport.Result result =
                readTables(
                        "wire,tile,name\n" + row + "\n", "from,to,delay_ps\nx0y0/a,x1y1/pad,10\n");
        BadInput fault = ((TableImport.Faulty) result).shown().get(0);
        assertThat(fault.source()).endsWith(file);
        assertThat(fault.place()).isEqualTo(place);
        assertThat(fault.expected()).isEqualTo(expected);
        assertThat(fault.found()).isEqualTo(found);
    }

    @Test
    void theTileOfASwitchMustBeOnTheGrid() throws Exception {
        Path json = folder.resolve("f.json");
        FabricWriter.write(irregular(1), json);
        String text = Files.readString(json);
        int at = text.indexOf("\"switches\"");
        int end = text.indexOf("]", at);
        String far = text.substring(0, end).stripTrailing() + ", [5, 0]" + text.substring(end);
        Files.writeString(json, far);
        assertThatThrownBy(() -> FabricReader.read(json, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining("$.switches[0]")
                .hasMessageContaining("a whole number from 0 to 4");
    }

    @Test
    void aTapsNameIsNoOthersInJsonEither() throws Exception {
        Path json = folder.resolve("f.json");
        FabricWriter.write(irregular(1), json);
        String text = Files.readString(json);
        int named = text.indexOf("\"name\"", text.indexOf("\"taps\""));
        int start = text.indexOf("\"", named + 6);
        int end = text.indexOf("\"", start + 1);
        int first = text.indexOf("\"name\"", text.indexOf("\"wires\""));
        int firstStart = text.indexOf("\"", first + 6);
        String taken = text.substring(firstStart, text.indexOf("\"", firstStart + 1) + 1);
        Files.writeString(json, text.substring(0, start) + taken + text.substring(end + 1));
        assertThatThrownBy(() -> FabricReader.read(json, Progress.NONE))
                .isInstanceOf(BadInput.class)
                .hasMessageContaining(".taps[")
                .hasMessageContaining("a name that no other wire, site, pin or pad has");
    }
}
