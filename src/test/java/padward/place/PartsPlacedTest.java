package padward.place;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.SwitchGroups;
import padward.fabric.WholeSite;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricWriter;
import padward.format.netlist.CellMappingReader;
import padward.format.netlist.NetlistReader;
import padward.synth.DesignMaker;

/** Netlists on irregular fabrics, where lookup table and register are parts of one cell. */
class PartsPlacedTest {
    private static final Path NETLISTS = Path.of("fixtures/netlists");

    private static Fabric fabric(int wires) {
        return DesignMaker.makeIrregular(wires, 5, 0.01, Progress.NONE).design().fabric();
    }

    private static PlaceRouteResult.OnFabric placed(
            Path file, Fabric fabric, PlaceRouteOptions options) throws Exception {
        NetlistReader.Mapped mapped =
                NetlistReader.read(
                        file,
                        "",
                        CellMappingReader.read(
                                NETLISTS.resolve("parts.mapping.json"), Progress.NONE),
                        fabric,
                        Progress.NONE);
        PlaceRouteResult result =
                PlaceAndRoute.placeAndRoute(fabric, mapped.netlist(), options, Progress.NONE);
        assertThat(result).isInstanceOf(PlaceRouteResult.OnFabric.class);
        return (PlaceRouteResult.OnFabric) result;
    }

    /**
     * What holds of every result: all nets are routed, files read it again, no switches of a group
     * are on together, the clock is on the global wire; and how many registers their own table
     * drives inside the cell.
     */
    private static int check(PlaceRouteResult.OnFabric placed, Path folder) throws Exception {
        assertThat(placed.report().unrouted()).isEmpty();
        Fabric fabric = placed.design().fabric();
        FabricWriter.write(fabric, folder.resolve("fabric.json.gz"));
        DesignWriter.write(placed.design(), folder.resolve("design.json"), "fabric.json.gz", "");
        Design design = DesignReader.read(folder.resolve("design.json"), Progress.NONE);
        assertThat(design.nets()).hasSameSizeAs(placed.design().nets());
        SwitchGroups groups = fabric.switchGroups();
        Set<Integer> on = new HashSet<>();
        int direct = 0;
        for (Net net : design.nets()) {
            RouteTree tree = net.route();
            if (net.clock()) {
                assertThat(tree.toVertices()).contains(fabric.findVertex("global"));
            }
            for (int place = 1; place < tree.size(); place++) {
                int from = tree.vertex(tree.parent(place));
                int to = tree.vertex(place);
                int group = groups.groupOf(from, to);
                assertThat(group == Fabric.NOTHING || on.add(group)).isTrue();
                direct += tree.parent(place) == 0 && isDirect(fabric, from, to) ? 1 : 0;
            }
        }
        return direct;
    }

    private static boolean isDirect(Fabric fabric, int from, int to) {
        return fabric.vertexName(from).endsWith(".out")
                && fabric.vertexName(to).equals(fabric.vertexName(from).replace(".out", ".d"));
    }

    /** Nets from the first part of a cell to the second. */
    private static long pairs(Design design) {
        return design.nets().stream()
                .filter(
                        net ->
                                net.driver() instanceof Terminal.CellPin at
                                        && net.sinks().stream()
                                                .anyMatch(s -> isBeside(design, at, s)))
                .count();
    }

    private static boolean isBeside(Design design, Terminal.CellPin driver, Terminal sink) {
        if (!(sink instanceof Terminal.CellPin to)) {
            return false;
        }
        SiteView one = design.fabric().site(design.cells().get(driver.cell()).site());
        SiteView other = design.fabric().site(design.cells().get(to.cell()).site());
        return one.isPart() && one.id() < other.id() && one.wholeName().equals(other.wholeName());
    }

    @ParameterizedTest
    @CsvSource({"counter, 8", "receiver, 10"})
    void handWrittenCircuits(String name, int together, @TempDir Path folder) throws Exception {
        PlaceRouteResult.OnFabric placed =
                placed(NETLISTS.resolve(name + ".v"), fabric(8_000), PlaceRouteOptions.usual(1));
        int direct = check(placed, folder);
        assertThat(direct).isGreaterThanOrEqualTo(together);
        assertThat(pairs(placed.design())).isEqualTo(direct);
        assertThat(placed.report().uses())
                .extracting(PlaceRouteResult.Use::what)
                .contains("lookup-table with register");
    }

    /** A register goes with the table that drives it, unless another one took that before. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void noTableAndRegisterThatFitStayApart(long seed, @TempDir Path folder) throws Exception {
        Path file = Files.writeString(folder.resolve("made.v"), RandomVerilog.make(120, seed));
        PlaceRouteOptions options =
                new PlaceRouteOptions(seed, 0.1, 1, 60, Map.of(), Board.UNKNOWN);
        PlaceRouteResult.OnFabric placed = placed(file, fabric(8_000), options);
        check(placed, folder);
        Design design = placed.design();
        Set<Integer> together = new HashSet<>();
        for (Net net : design.nets()) {
            for (Terminal sink : net.sinks()) {
                if (net.driver() instanceof Terminal.CellPin at && isBeside(design, at, sink)) {
                    together.add(at.cell());
                    together.add(((Terminal.CellPin) sink).cell());
                }
            }
        }
        assertThat(together).isNotEmpty();
        for (Net net : design.nets()) {
            for (Terminal sink : net.sinks()) {
                boolean apart =
                        net.driver() instanceof Terminal.CellPin from
                                && sink instanceof Terminal.CellPin to
                                && design.cells().get(from.cell()).kind().equals("lookup-table")
                                && design.cells().get(to.cell()).kind().equals("register")
                                && to.pin().equals("d")
                                && !together.contains(from.cell())
                                && !together.contains(to.cell());
                assertThat(apart).as(net.name()).isFalse();
            }
        }
    }

    @Test
    void whatDoesNotFitApartIsPaired(@TempDir Path folder) throws Exception {
        Fabric fabric = fabric(2_500);
        int places = 0;
        for (WholeSite site : WholeSite.allOf(fabric)) {
            places += site.hasParts() ? 1 : 0;
        }
        int cells = places * 3 / 2;
        Path file = Files.writeString(folder.resolve("made.v"), RandomVerilog.make(cells, 7));
        PlaceRouteOptions options = new PlaceRouteOptions(3, 0.05, 1, 60, Map.of(), Board.UNKNOWN);
        Design design = placed(file, fabric, options).design();
        assertThat(design.cells()).hasSize(cells);
        FabricWriter.write(fabric, folder.resolve("fabric.json.gz"));
        DesignWriter.write(design, folder.resolve("design.json"), "fabric.json.gz", "");
        assertThat(DesignReader.read(folder.resolve("design.json"), Progress.NONE).cells())
                .hasSize(cells);
    }

    @Test
    void twoThousandCells(@TempDir Path folder) throws Exception {
        Path file = Files.writeString(folder.resolve("made.v"), RandomVerilog.make(2_000, 7));
        PlaceRouteOptions options = new PlaceRouteOptions(3, 0.05, 1, 60, Map.of(), Board.UNKNOWN);
        PlaceRouteResult.OnFabric placed = placed(file, fabric(90_000), options);
        int direct = check(placed, folder);
        assertThat(placed.design().cells()).hasSize(2_000);
        assertThat(direct).isGreaterThan(200);
        assertThat(pairs(placed.design())).isEqualTo(direct);
    }
}
