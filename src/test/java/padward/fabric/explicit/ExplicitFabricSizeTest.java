package padward.fabric.explicit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.assertj.core.api.Assertions.within;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Delay;
import padward.fabric.pattern.PatternFabric;
import padward.synth.DesignMaker;
import padward.synth.FabricMaker;

/** What explicit fabrics cost in memory, as they count it and as a walk over their arrays does. */
class ExplicitFabricSizeTest {
    /**
     * The promise: bytes a vertex of the graph, edges in both directions, delays, kinds and places.
     */
    private static final int PROMISED = 40;

    /** What is promised of irregular devices. */
    private static final int PROMISED_IRREGULAR = 20;

    private static final int EDGES_A_VERTEX = 10;

    @Test
    void aFabricOfRepeatedTilesCostsLittleAndAnswersAsThePattern() throws Exception {
        Fabric pattern = PatternFabric.compile(FabricMaker.make(60_000, 5));
        ExplicitFabric explicit = RandomFabrics.explicit(pattern);
        assertThat(perVertex(explicit, explicit.graphBytes())).isLessThan(PROMISED / 4.0);
        assertThat(perVertex(explicit, explicit.nameBytes())).isLessThan(4);
        assertIsCounted(explicit);
        for (int v = 0; v < pattern.vertexCount(); v += 7) {
            assertThat(explicit.vertexName(v)).isEqualTo(pattern.vertexName(v));
            assertThat(explicit.siteOf(v)).isEqualTo(pattern.siteOf(v));
        }
    }

    @Test
    void aFabricOfIrregularTilesKeepsThePromise() throws Exception {
        PatternFabric pattern = PatternFabric.compile(FabricMaker.make(30_000, 5));
        Random random = new Random(3);
        boolean[] odd = new boolean[pattern.tileCount()];
        for (int tile = 0; tile < odd.length; tile++) {
            odd[tile] = random.nextInt(10) == 0;
        }
        ExplicitFabric explicit =
                RandomFabrics.explicit(
                        pattern, v -> !odd[pattern.tile(v)] || random.nextInt(10) > 0);
        assertThat(perVertex(explicit, explicit.graphBytes())).isLessThan(PROMISED);
        // and even where every tile lacks others
        ExplicitFabric all = RandomFabrics.explicit(pattern, v -> random.nextInt(10) > 0);
        assertThat(perVertex(all, all.graphBytes())).isLessThan(PROMISED);
    }

    /** With everything real devices have: bent wires, taps, switches that exclude each other. */
    @Test
    void anIrregularDeviceIsSmall() throws Exception {
        ExplicitFabric device = irregular(20_000);
        assertThat(device.switchGroups().count()).isGreaterThan(device.vertexCount() / 2);
        // a small device has few tiles that are alike, and a switch in a group for each vertex
        assertThat(perVertex(device, device.graphBytes())).isLessThan(45);
        assertThat(perVertex(device, device.switchGroups().memory())).isLessThan(9);
        assertThat(perVertex(device, device.nameBytes())).isLessThan(11);
        assertIsCounted(device);
    }

    @Test
    @Tag("slow")
    void aLargeIrregularDeviceKeepsItsOwnPromise() throws Exception {
        ExplicitFabric device = irregular(180_000);
        assertThat(perVertex(device, device.graphBytes())).isLessThan(PROMISED_IRREGULAR);
        assertIsCounted(device);
    }

    private static ExplicitFabric irregular(int wires) {
        return (ExplicitFabric)
                DesignMaker.makeIrregular(wires, 5, 0, Progress.NONE).design().fabric();
    }

    /** Neither places nor names nor edges have any order: what is documented of such a fabric. */
    @Test
    void aFabricWithoutAnyRepetitionIsStillSmallAndRight() throws Exception {
        int count = 20_000;
        int side = 60;
        Random random = new Random(4);
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("odd", "invented", List.of(), List.of(), List.of()),
                        side,
                        side);
        for (int v = 0; v < count; v++) {
            int tile = random.nextInt(side * side);
            builder.addWire("w" + v, tile, tile, "k" + random.nextInt(5));
        }
        Map<Long, Delay> stated = new HashMap<>();
        for (int e = 0; e < EDGES_A_VERTEX * count; e++) {
            int from = random.nextInt(count);
            int to = random.nextInt(count);
            Delay delay = new Delay(random.nextInt(4), 4 + random.nextInt(4));
            builder.addEdge(from, to, EdgeKind.SWITCH, delay);
            stated.putIfAbsent((long) from << Integer.SIZE | to, delay);
        }
        ExplicitFabric explicit = builder.build();
        assertThat(perVertex(explicit, explicit.graphBytes()))
                .isLessThan(25 + 2 * 7 * EDGES_A_VERTEX);
        assertThat(perVertex(explicit, explicit.nameBytes())).isLessThan(64);
        assertIsCounted(explicit);
        check(explicit, explicit.edgesOut(), false, stated);
        check(explicit, explicit.edgesIn(), true, stated);
    }

    /** All but the names of the tiles' types, and the delays. */
    private static void assertIsCounted(ExplicitFabric fabric) throws Exception {
        long reported = fabric.graphBytes() + fabric.nameBytes() - 4L * fabric.tileCount();
        assertThat(ArrayBytes.of(fabric)).isCloseTo(reported, within(5_000L));
    }

    private static void check(
            Fabric fabric, EdgeCursor edges, boolean incoming, Map<Long, Delay> stated) {
        int met = 0;
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                long own = Long.parseLong(fabric.vertexName(v).substring(1));
                long other = Long.parseLong(fabric.vertexName(edges.other()).substring(1));
                long key = incoming ? other << Integer.SIZE | own : own << Integer.SIZE | other;
                if (!edges.delay().equals(stated.get(key))) {
                    fail("edge " + key);
                }
                met++;
            }
        }
        assertThat(met).isEqualTo(stated.size());
    }

    private static double perVertex(Fabric fabric, long bytes) {
        return (double) bytes / fabric.vertexCount();
    }
}
