package padward.synth;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.OfferedPads;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.RouteTree;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.fabric.WholeSite;
import padward.fabric.delay.Corner;
import padward.fabric.pad.PadUse;
import padward.format.design.DesignReader;
import padward.format.design.DesignWriter;
import padward.format.fabric.FabricReader;
import padward.format.fabric.FabricWriter;
import padward.format.tables.TableExport;
import padward.format.tables.TableImport;
import padward.route.search.SearchEngineKind;

/** Made fabrics that are irregular, as devices are, and the designs on them. */
class IrregularMakerTest {
    private static final int WIRES = 6000;

    private static Design made(long seed) {
        return DesignMaker.makeIrregular(WIRES, seed, 0.6, Progress.NONE).design();
    }

    @Test
    void itHasWhatDevicesHave() {
        Fabric fabric = made(1).fabric();
        int bends = 0;
        int stops = 0;
        for (int v = 0; v < fabric.vertexCount(); v++) {
            int[] taps = fabric.tapTiles(v);
            boolean straight =
                    Arrays.stream(taps).allMatch(t -> fabric.row(t) == fabric.row(taps[0]))
                            || Arrays.stream(taps)
                                    .allMatch(t -> fabric.column(t) == fabric.column(taps[0]));
            bends += straight ? 0 : 1;
            stops += straight && taps.length > 2 ? 1 : 0;
        }
        assertThat(bends).isGreaterThan(20);
        assertThat(stops).isGreaterThan(500);
        assertThat(fabric.switchGroups().count()).isGreaterThan(500);
        assertThat(fabric.taps(fabric.findVertex("global"))).hasSizeGreaterThan(60);
        assertThat(fabric.tileType(fabric.tileCount() - 1)).isEqualTo("void");
        assertThat(WholeSite.allOf(fabric))
                .filteredOn(WholeSite::hasParts)
                .hasSizeGreaterThan(50)
                .allMatch(site -> site.parts().size() == 2);
        assertThat(fabric.pads())
                .anyMatch(p -> p.use().bonding() == PadUse.Bonding.UNBONDED)
                .anyMatch(p -> p.use().role() == PadUse.Role.CONFIGURATION)
                .anyMatch(p -> p.use().role() == PadUse.Role.CLOCK);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void everySwitchIsInATileInWhichBothItsEndsHaveATap(long seed) {
        Fabric fabric = made(seed).fabric();
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                if (edges.kind() == EdgeKind.SWITCH) {
                    int tile = fabric.switchTile(v, edges.other());
                    assertThat(fabric.tapTiles(v)).contains(tile);
                    assertThat(fabric.tapTiles(edges.other())).contains(tile);
                }
            }
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void theSameSeedGivesTheSameAndBothFormsOfFilesKeepIt(long seed, @TempDir Path folder)
            throws Exception {
        Fabric fabric = made(seed).fabric();
        Path one = folder.resolve("one.json");
        Path two = folder.resolve("two.json");
        FabricWriter.write(fabric, one);
        FabricWriter.write(made(seed).fabric(), two);
        assertThat(two).hasSameBinaryContentAs(one);
        Path tables = folder.resolve("tables");
        TableExport.write(FabricReader.read(one, Progress.NONE), tables, false, Progress.NONE);
        TableImport.Result result = TableImport.read(tables, 5, Progress.NONE);
        assertThat(result).isInstanceOf(TableImport.Sound.class);
        FabricWriter.write(((TableImport.Sound) result).fabric(), two);
        assertThat(two).hasSameBinaryContentAs(one);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void theClockIsOnTheGlobalWireAndNoPortOnAPadForSomethingElse(long seed) {
        MadeDesign made = DesignMaker.makeIrregular(WIRES, seed, 0.6, Progress.NONE);
        Design design = made.design();
        assertThat(made.leftOut()).isZero();
        Net clock = design.nets().get(0);
        assertThat(clock.clock()).isTrue();
        assertThat(clock.sinks()).hasSizeGreaterThan(20);
        int global = design.fabric().findVertex("global");
        assertThat(clock.route().toVertices()).contains(global);
        List<Integer> offered = OfferedPads.of(design.fabric());
        assertThat(design.ports()).extracting(Port::pad).isSubsetOf(offered);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void noDesignHasTwoSwitchesOfAGroupOn(long seed, @TempDir Path folder) throws Exception {
        Design design = DesignMaker.makeIrregular(WIRES, seed, 0.85, Progress.NONE).design();
        SwitchGroups groups = design.fabric().switchGroups();
        Set<Integer> on = new HashSet<>();
        for (Net net : design.nets()) {
            RouteTree tree = net.route();
            for (int place = 1; place < tree.size(); place++) {
                int from = tree.vertex(tree.parent(place));
                int group = groups.groupOf(from, tree.vertex(place));
                assertThat(group == Fabric.NOTHING || on.add(group)).isTrue();
            }
        }
        assertThat(on).hasSizeGreaterThan(20);
        FabricWriter.write(design.fabric(), folder.resolve("f.json"));
        DesignWriter.write(design, folder.resolve("d.json"), "f.json", "");
        assertThat(DesignReader.read(folder.resolve("d.json"), Progress.NONE).nets())
                .hasSameSizeAs(design.nets());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2})
    void answersCostWhatAnotherEngineFinds(long seed) {
        checkAnswers(made(seed));
    }

    /**
     * On a thousand devices, of all sizes between one and four thousand wires. A run that was
     * stopped goes on with the seed that it printed last.
     */
    @Test
    @Tag("slow")
    void answersCostWhatAnotherEngineFindsOnAThousandDevices() {
        for (long seed = Long.getLong("padward.seed", 100); seed < 1_100; seed++) {
            System.out.println("seed " + seed);
            int wires = 1_000 + (int) (seed * 37 % 3_000);
            checkAnswers(
                    DesignMaker.makeIrregular(wires, seed, 0.4 + seed % 5 * 0.1, Progress.NONE)
                            .design());
        }
    }

    private static void checkAnswers(Design design) {
        Asker own = new Asker(design.fabric(), SearchEngineKind.OWN);
        Asker reference = new Asker(design.fabric(), SearchEngineKind.REFERENCE);
        int found = 0;
        for (int i = 0; i < 40; i++) {
            Net net = design.nets().get(1 + 3 * i % (design.nets().size() - 1));
            int pad = 7 * i % design.fabric().pads().size();
            Question question = new Question(design, net, pad, Corner.SLOW);
            Answer one = own.answer(question, Progress.NONE);
            Answer other = reference.answer(question, Progress.NONE);
            assertThat(one.getClass()).isEqualTo(other.getClass());
            assertThat(one.findRoute().map(r -> r.total().slowPs()))
                    .isEqualTo(other.findRoute().map(r -> r.total().slowPs()));
            found += one.findRoute().isPresent() ? 1 : 0;
        }
        assertThat(found).isGreaterThan(15);
    }
}
