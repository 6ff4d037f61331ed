package padward.fabric.explicit;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.PlainFabric;
import padward.fabric.SitePin;
import padward.fabric.SiteView;
import padward.fabric.Tap;

/** The compressed fabric answers everything as plain lists and maps do. */
class ExplicitFabricProperties {
    static LongStream seeds() {
        return LongStream.range(0, 400);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void verticesAreWhatWasListedTileByTile(long seed) {
        PlainFabric plain = new PlainFabric(seed);
        plain.vertices.forEach(
                v -> {
                    int own = plain.builder.findVertex(v.name());
                    assertThat(plain.vertices.get(own)).isEqualTo(v);
                });
        Fabric fabric = plain.builder.build();
        assertThat(fabric.vertexCount()).isEqualTo(plain.vertices.size());
        for (int v = 0; v < fabric.vertexCount(); v++) {
            PlainFabric.Vertex expected = plain.vertices.get(plain.vertexOrder.get(v));
            assertThat(fabric.vertexName(v)).isEqualTo(expected.name());
            assertThat(fabric.findVertex(expected.name())).isEqualTo(v);
            assertThat(fabric.kind(v)).isEqualTo(expected.kind());
            assertThat(fabric.tile(v)).isEqualTo(expected.tile());
            assertThat(fabric.headTile(v)).isEqualTo(expected.head());
            assertThat(fabric.wireKind(v)).isEqualTo(expected.wireKind());
            int site = expected.site();
            assertThat(fabric.siteOf(v))
                    .isEqualTo(site < 0 ? Fabric.NOTHING : plain.siteOrder.indexOf(site));
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void tapsAreWhatWasListedOrBeginAndEnd(long seed) {
        PlainFabric plain = new PlainFabric(seed);
        Fabric fabric = plain.builder.build();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            int added = plain.vertexOrder.get(v);
            List<Tap> expected = expectedTaps(plain, added);
            assertThat(fabric.taps(v)).isEqualTo(expected);
            for (Tap tap : expected) {
                assertThat(fabric.findVertex(tap.name())).as(tap.name()).isEqualTo(v);
                assertThat(expected).contains(new Tap(tap.tile(), fabric.nameIn(v, tap.tile())));
            }
            int elsewhere = (int) (seed % fabric.tileCount());
            if (expected.stream().noneMatch(t -> t.tile() == elsewhere)) {
                assertThat(fabric.nameIn(v, elsewhere)).isEqualTo(fabric.vertexName(v));
            }
        }
    }

    private static List<Tap> expectedTaps(PlainFabric plain, int added) {
        PlainFabric.Vertex vertex = plain.vertices.get(added);
        Tap begin = new Tap(vertex.tile(), vertex.name());
        Tap end = new Tap(vertex.head(), vertex.name());
        return plain.taps.getOrDefault(
                added, begin.equals(end) ? List.of(begin) : List.of(begin, end));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void switchesAreInTheStatedTileOrTheOnlyOneInWhichBothHaveTaps(long seed) {
        PlainFabric plain = new PlainFabric(seed);
        Fabric fabric = plain.builder.build();
        plain.edges.forEach(
                (ends, edge) -> {
                    Set<Integer> common = tiles(expectedTaps(plain, ends.get(0)));
                    common.retainAll(tiles(expectedTaps(plain, ends.get(1))));
                    int open = common.size() == 1 ? common.iterator().next() : Fabric.NOTHING;
                    assertThat(
                                    fabric.switchTile(
                                            plain.vertexOrder.indexOf(ends.get(0)),
                                            plain.vertexOrder.indexOf(ends.get(1))))
                            .isEqualTo(plain.switchTiles.getOrDefault(ends, open));
                });
    }

    private static Set<Integer> tiles(List<Tap> taps) {
        return taps.stream().map(Tap::tile).collect(Collectors.toSet());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void unknownNamesAreNotFound(long seed) {
        PlainFabric plain = new PlainFabric(seed);
        Fabric fabric = plain.builder.build();
        for (PlainFabric.Vertex vertex : plain.vertices) {
            String name = vertex.name();
            String[] others = {
                name + "x",
                name.substring(1),
                name.replace("x", "X"),
                name.replace("x", "x0"),
                name.replace("x1", "x2"),
                name.replace("X1", "x1"),
                ""
            };
            for (String other : others) {
                boolean taken = plain.isTaken(other);
                assertThat(fabric.findVertex(other) != Fabric.NOTHING).as(other).isEqualTo(taken);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void sitesAndPadsAreWhatWasListed(long seed) {
        PlainFabric plain = new PlainFabric(seed);
        Fabric fabric = plain.builder.build();
        assertThat(fabric.siteCount()).isEqualTo(plain.sites.size());
        for (int s = 0; s < fabric.siteCount(); s++) {
            PlainFabric.Site expected = plain.sites.get(plain.siteOrder.get(s));
            SiteView site = fabric.site(s);
            assertThat(site.id()).isEqualTo(s);
            assertThat(site.name()).isEqualTo(expected.name());
            assertThat(site.tile()).isEqualTo(expected.tile());
            assertThat(site.kind()).isEqualTo(expected.kind());
            assertThat(site.accepts()).isEqualTo(expected.accepts());
            assertThat(site.pins()).isEqualTo(expected.pins());
            assertThat(fabric.findSite(expected.name())).isEqualTo(s);
            for (SitePin pin : expected.pins()) {
                assertThat(fabric.vertexName(site.findPin(pin.name())))
                        .isEqualTo(expected.name() + "." + pin.name());
            }
            assertThat(s)
                    .isBetween(
                            fabric.firstSite(site.tile()), fabric.firstSite(site.tile() + 1) - 1);
        }
        assertThat(fabric.firstSite(fabric.tileCount())).isEqualTo(fabric.siteCount());
        assertThat(fabric.findSite("no such site")).isEqualTo(Fabric.NOTHING);
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            assertThat(fabric.tileType(tile))
                    .isEqualTo(plain.tileTypes.getOrDefault(tile, "empty"));
        }
        assertThat(fabric.pads()).hasSameSizeAs(plain.pads);
        assertThat(fabric.pads()).isSortedAccordingTo(Comparator.comparingInt(Pad::vertex));
        for (Pad expected : plain.pads) {
            int vertex = fabric.findVertex(expected.name());
            assertThat(fabric.findPadAt(vertex))
                    .isEqualTo(Optional.of(renumbered(plain, vertex, expected)));
        }
    }

    private static Pad renumbered(PlainFabric plain, int vertex, Pad pad) {
        return new Pad(
                pad.name(),
                vertex,
                pad.tile(),
                pad.packagePin(),
                pad.bank(),
                pad.directions(),
                plain.siteOrder.indexOf(pad.dataSite()),
                plain.siteOrder.indexOf(pad.enableSite()),
                pad.defaultSetting(),
                pad.use(),
                pad.enable());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void edgesAreTheFirstBetweenTheirEndsInOrderBothWays(long seed) {
        PlainFabric plain = new PlainFabric(seed);
        Fabric fabric = plain.builder.build();
        List<Map<Integer, PlainFabric.Edge>> out = new ArrayList<>();
        List<Map<Integer, PlainFabric.Edge>> in = new ArrayList<>();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            out.add(new LinkedHashMap<>());
            in.add(new TreeMap<>());
        }
        plain.edges.forEach(
                (ends, edge) -> {
                    int from = plain.vertexOrder.indexOf(ends.get(0));
                    int to = plain.vertexOrder.indexOf(ends.get(1));
                    out.get(from).put(to, edge);
                    in.get(to).put(from, edge);
                });
        for (int v = 0; v < fabric.vertexCount(); v++) {
            assertThat(edges(fabric.edgesOut(), v)).containsExactlyEntriesOf(out.get(v));
            assertThat(edges(fabric.edgesIn(), v)).containsExactlyEntriesOf(in.get(v));
        }
        assertThat(plain.builder.repeated().stream().map(r -> List.of(r.from(), r.to())))
                .containsExactlyInAnyOrderElementsOf(plain.repeated);
    }

    /** By far end; a map that keeps the order of the cursor. */
    private static Map<Integer, PlainFabric.Edge> edges(EdgeCursor cursor, int vertex) {
        Map<Integer, PlainFabric.Edge> result = new LinkedHashMap<>();
        cursor.reset(vertex);
        while (cursor.next()) {
            PlainFabric.Edge edge = new PlainFabric.Edge(cursor.kind(), cursor.delay());
            assertThat(result.put(cursor.other(), edge)).isNull();
        }
        return result;
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void slicesOfAnySizeTurnTheSameRows(long seed) {
        ExplicitFabric fabric = new PlainFabric(seed).builder.build();
        EdgeRows turned = fabric.incomingInSlicesOf(1 + (int) (seed % 40));
        for (int v = 0; v < fabric.vertexCount(); v++) {
            assertThat(edges(turned.cursor(), v))
                    .containsExactlyEntriesOf(edges(fabric.edgesIn(), v));
        }
    }

    @Test
    void aBuilderBuildsOnce() {
        ExplicitBuilder builder = new PlainFabric(0).builder;
        builder.build();
        assertThatThrownBy(builder::build).isInstanceOf(IllegalStateException.class);
    }
}
