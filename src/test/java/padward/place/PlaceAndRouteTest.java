package padward.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.design.Cell;
import padward.design.Design;
import padward.design.DesignReview;
import padward.design.Net;
import padward.design.Port;
import padward.design.PortDirection;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadUse;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternSpec;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.PatternWriter;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.synth.DesignMaker;
import padward.synth.FabricMaker;

/** Netlists, hand-written and made, on a pattern fabric. */
class PlaceAndRouteTest {
    private static final Path NETLISTS = Path.of("fixtures/netlists");

    private static NetlistReader.Mapped read(Path file, Fabric fabric) throws Exception {
        return read(file, "larch.mapping.json", fabric);
    }

    private static NetlistReader.Mapped read(Path file, String mapping, Fabric fabric)
            throws Exception {
        return NetlistReader.read(
                file,
                "",
                CellMappingReader.read(NETLISTS.resolve(mapping), Progress.NONE),
                fabric,
                Progress.NONE);
    }

    /**
     * The file reader checks the design: each wire has one net, each net uses existing switches.
     */
    private static Design checked(PlaceRouteResult.OnFabric placed, int wires, Path folder)
            throws Exception {
        PatternWriter.write(FabricMaker.make(wires, 5), folder.resolve("fabric.json.gz"));
        DesignWriter.write(placed.design(), folder.resolve("design.json"), "fabric.json.gz", "");
        return DesignReader.read(folder.resolve("design.json"), Progress.NONE);
    }

    @ParameterizedTest
    @CsvSource({"counter, 32, 10, 8", "receiver, 44, 11, 1"})
    void handWrittenCircuits(String name, int cells, int ports, int packed, @TempDir Path folder)
            throws Exception {
        int wires = 8_000;
        Fabric fabric = PatternFabric.compile(FabricMaker.make(wires, 5));
        NetlistReader.Mapped mapped = read(NETLISTS.resolve(name + ".v"), fabric);
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric,
                                mapped.netlist(),
                                PlaceRouteOptions.usual(1),
                                Progress.NONE);
        assertThat(placed.report().unrouted()).isEmpty();
        assertThat(placed.report().packed()).isEqualTo(packed);
        assertThat(placed.report().worstPs()).isPositive();
        Design design = checked(placed, wires, folder);
        assertThat(design.cells()).hasSize(cells);
        assertThat(design.ports()).hasSize(ports);
        assertThat(design.nets()).hasSize(mapped.netlist().nets().size());
        PlaceRouteResult again =
                PlaceAndRoute.placeAndRoute(
                        fabric, mapped.netlist(), PlaceRouteOptions.usual(1), Progress.NONE);
        assertThat(((PlaceRouteResult.OnFabric) again).design().nets())
                .as("the same seed")
                .isEqualTo(placed.design().nets());
    }

    @Test
    void twoThousandCells(@TempDir Path folder) throws Exception {
        int wires = 90_000;
        Fabric fabric = PatternFabric.compile(FabricMaker.make(wires, 5));
        Path file = Files.writeString(folder.resolve("made.v"), RandomVerilog.make(2_000, 7));
        NetlistReader.Mapped mapped = read(file, fabric);
        assertThat(mapped.netlist().cells()).hasSize(2_000);
        PlaceRouteOptions options = new PlaceRouteOptions(3, 0.05, 1, 60, Map.of(), Board.UNKNOWN);
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric, mapped.netlist(), options, Progress.NONE);
        assertThat(placed.report().unrouted()).isEmpty();
        Design design = checked(placed, wires, folder);
        assertThat(design.nets()).hasSize(mapped.netlist().nets().size());
        Random random = new Random(1);
        int open = 0;
        for (int i = 0; i < 6; i++) {
            Question question =
                    new Question(
                            design,
                            design.nets().get(random.nextInt(design.nets().size())),
                            random.nextInt(fabric.pads().size()),
                            Corner.SLOW);
            open += Asker.ask(question, Progress.NONE) instanceof Answer.Open ? 1 : 0;
        }
        assertThat(open).isPositive();
    }

    @Test
    void whatDoesNotFitIsReportedWithItsNumbers() throws Exception {
        Fabric fabric = PatternFabric.compile(FabricMaker.make(5_000, 5));
        Path folder = Files.createTempDirectory("padward");
        try {
            Path file = Files.writeString(folder.resolve("made.v"), RandomVerilog.make(900, 7));
            PlaceRouteResult result =
                    PlaceAndRoute.placeAndRoute(
                            fabric,
                            read(file, fabric).netlist(),
                            PlaceRouteOptions.usual(1),
                            Progress.NONE);
            assertThat(result).isInstanceOf(PlaceRouteResult.NoRoom.class);
            assertThat(((PlaceRouteResult.NoRoom) result).reasons().get(0))
                    .contains("lookup-table")
                    .contains("register")
                    .containsPattern("for \\d+ places that they can use");
        } finally {
            Files.deleteIfExists(folder.resolve("made.v"));
            Files.deleteIfExists(folder);
        }
    }

    @Test
    void aNetWithoutARouteIsReportedWithItsReason(@TempDir Path folder) throws Exception {
        int wires = 8_000;
        Fabric fabric = PatternFabric.compile(FabricMaker.make(wires, 5));
        // a clock out of a lookup table: on this fabric, clock wires begin at pads only
        Path file =
                Files.writeString(
                        folder.resolve("t.v"),
                        "module t (input clock, input a, output y);\n  wire gated, q;\n"
                                + "  look4 g (.a(clock), .b(a), .y(gated));\n"
                                + "  keep k (.d(a), .c(gated), .q(q));\n"
                                + "  look4 l (.a(q), .b(gated), .y(y));\nendmodule\n");
        NetlistReader.Mapped mapped = read(file, fabric);
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric,
                                mapped.netlist(),
                                PlaceRouteOptions.usual(1),
                                Progress.NONE);
        assertThat(placed.report().unrouted()).hasSize(1);
        assertThat(placed.report().unrouted().get(0).net()).isEqualTo("gated");
        assertThat(placed.report().unrouted().get(0).reason())
                .startsWith("no wires lead from its driver to ")
                .endsWith(".clk");
        // the sink that wires lead to still gets its signal
        Design design = checked(placed, wires, folder);
        assertThat(design.findNet("gated").orElseThrow().sinks()).hasSize(1);
    }

    /** A bus of four lines that are driven and read on one pad each. */
    @Test
    void portsInBothDirectionsAreOnOnePadWithThreeNets(@TempDir Path folder) throws Exception {
        int wires = 8_000;
        Fabric fabric = PatternFabric.compile(FabricMaker.make(wires, 5));
        StringBuilder text = new StringBuilder("module bus (inout [3:0] data, input clock, talk,");
        text.append(" output [3:0] seen); wire [3:0] own; wire on;\n");
        text.append("keep k (.d(talk), .c(clock), .q(on));\n");
        for (int bit = 0; bit < 4; bit++) {
            text.append(
                    "keep r%d (.d(data[%d]), .c(clock), .q(own[%d]));\n".formatted(bit, bit, bit));
            text.append(
                    "keep s%d (.d(own[%d]), .c(clock), .q(seen[%d]));\n".formatted(bit, bit, bit));
            text.append("bufif1 t%d (data[%d], own[%d], on);\n".formatted(bit, bit, bit));
        }
        Path file = Files.writeString(folder.resolve("bus.v"), text.append("endmodule\n"));
        String types = Files.readString(NETLISTS.resolve("larch.mapping.json"));
        Path mapping =
                Files.writeString(
                        folder.resolve("bus.mapping.json"),
                        types.replace(
                                "\"types\": [",
                                "\"types\": [{\"type\": \"bufif1\", \"atPort\": {\"pad\": \"out\","
                                        + " \"out\": \"in[0]\", \"enable\": \"in[1]\"}},"));
        NetlistReader.Mapped mapped =
                NetlistReader.read(
                        file,
                        "",
                        CellMappingReader.read(mapping, Progress.NONE),
                        fabric,
                        Progress.NONE);
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric,
                                mapped.netlist(),
                                PlaceRouteOptions.usual(1),
                                Progress.NONE);
        assertThat(placed.report().unrouted()).isEmpty();
        Design design = checked(placed, wires, folder);
        for (int bit = 0; bit < 4; bit++) {
            int port = design.findPort("data[" + bit + "]").orElseThrow().id();
            assertThat(design.ports().get(port).direction()).isEqualTo(PortDirection.BOTH);
            Terminal pad = new Terminal.PortEnd(port);
            assertThat(design.nets()).filteredOn(n -> n.driver().equals(pad)).hasSize(1);
            assertThat(design.nets()).filteredOn(n -> n.sinks().contains(pad)).hasSize(1);
            assertThat(design.findNet("on").orElseThrow().sinks())
                    .contains(Terminal.PortEnd.enableOf(port));
        }
    }

    @Test
    void portsStayOnTheirAssignedPads() throws Exception {
        Fabric fabric = PatternFabric.compile(FabricMaker.make(8_000, 5));
        NetlistReader.Mapped mapped = read(NETLISTS.resolve("receiver.v"), fabric);
        int pad = 0;
        while (!fabric.pads().get(pad).directions().canDrive()) {
            pad++;
        }
        PlaceRouteOptions options =
                new PlaceRouteOptions(1, 0.1, 2, 60, Map.of("data[3]", pad), Board.UNKNOWN);
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric, mapped.netlist(), options, Progress.NONE);
        int own = pad;
        assertThat(placed.design().ports())
                .filteredOn(p -> p.name().equals("data[3]"))
                .allMatch(p -> p.pad() == own);
        // a clock cannot be there: its wires begin elsewhere
        PlaceRouteOptions wrong =
                new PlaceRouteOptions(1, 0.1, 2, 60, Map.of("clock", pad), Board.UNKNOWN);
        PlaceRouteResult refused =
                PlaceAndRoute.placeAndRoute(fabric, mapped.netlist(), wrong, Progress.NONE);
        assertThat(refused).isInstanceOf(PlaceRouteResult.NoRoom.class);
    }

    @Test
    void aClockComesInAtAPadForClocksAndRunsOnClockWires() throws Exception {
        Fabric fabric = DesignMaker.makeIrregular(9_000, 2, 0.1, Progress.NONE).design().fabric();
        NetlistReader.Mapped mapped =
                read(NETLISTS.resolve("counter.v"), "parts.mapping.json", fabric);
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric,
                                mapped.netlist(),
                                PlaceRouteOptions.usual(1),
                                Progress.NONE);
        Design design = placed.design();
        assertThat(placed.report().unrouted()).isEmpty();
        assertThat(design.nets().stream().filter(Net::clock)).isNotEmpty();
        for (Net net : design.nets()) {
            if (net.clock() && net.driver() instanceof Terminal.PortEnd at) {
                Pad pad = fabric.pads().get(design.ports().get(at.port()).pad());
                assertThat(pad.use().role()).isEqualTo(PadUse.Role.CLOCK);
            }
        }
        for (Port port : design.ports()) {
            assertThat(fabric.pads().get(port.pad()).use().isOffered()).isTrue();
        }
        assertThat(DesignReview.of(design)).noneMatch(f -> f.contains("no clock wire feeds"));
    }

    @Test
    void nothingIsPlacedOrRoutedOnWhatIsUnusable() throws Exception {
        PatternSpec spec = FabricMaker.make(8_000, 5);
        Fabric whole = PatternFabric.compile(spec);
        Random random = new Random(3);
        List<String> wires =
                IntStream.range(0, whole.vertexCount())
                        .filter(v -> whole.kind(v) == VertexKind.WIRE)
                        .filter(v -> !whole.wireKind(v).startsWith("clock"))
                        .filter(v -> random.nextInt(10) == 0)
                        .mapToObj(whole::vertexName)
                        .toList();
        List<String> sites =
                IntStream.range(0, whole.siteCount())
                        .filter(s -> random.nextInt(4) == 0)
                        .mapToObj(s -> whole.site(s).name())
                        .toList();
        Fabric fabric =
                PatternFabric.compile(
                        new PatternSpec(
                                spec.info(),
                                spec.columns(),
                                spec.rows(),
                                spec.wires(),
                                spec.tileTypes(),
                                spec.areas(),
                                spec.padOverrides(),
                                new PatternSpec.UnusableNames(wires, sites)));
        NetlistReader.Mapped mapped = read(NETLISTS.resolve("receiver.v"), fabric);
        PlaceRouteResult.OnFabric placed =
                (PlaceRouteResult.OnFabric)
                        PlaceAndRoute.placeAndRoute(
                                fabric,
                                mapped.netlist(),
                                PlaceRouteOptions.usual(1),
                                Progress.NONE);
        Design design = placed.design();
        for (Cell cell : design.cells()) {
            assertThat(fabric.unusable().isSite(cell.site())).isFalse();
        }
        for (Net net : design.nets()) {
            for (int vertex : net.route().toVertices()) {
                assertThat(fabric.unusable().isVertex(vertex)).isFalse();
            }
        }
    }
}
