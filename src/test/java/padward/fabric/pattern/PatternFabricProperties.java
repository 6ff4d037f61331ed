package padward.fabric.pattern;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.SiteView;

/** What is true of every pattern: names lead back, both cursors list the same edges. */
class PatternFabricProperties {
    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void namesAreUniqueAndLeadBack(long seed) throws PatternFault {
        Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
        Set<String> names = new HashSet<>();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            assertThat(names.add(fabric.vertexName(v))).isTrue();
            assertThat(fabric.findVertex(fabric.vertexName(v))).isEqualTo(v);
        }
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            assertThat(fabric.findSite(site.name())).isEqualTo(s);
            for (int pin = 0; pin < site.pins().size(); pin++) {
                assertThat(fabric.siteOf(site.firstPin() + pin)).isEqualTo(s);
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void outgoingAndIncomingEdgesAreTheSameSet(long seed) throws PatternFault {
        Fabric fabric = PatternFabric.compile(RandomFabrics.pattern(seed));
        assertThat(edges(fabric, fabric.edgesIn(), true))
                .isEqualTo(edges(fabric, fabric.edgesOut(), false));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void theExplicitFormHasTheSameEdges(long seed) throws PatternFault {
        Fabric pattern = PatternFabric.compile(RandomFabrics.pattern(seed));
        Fabric explicit = RandomFabrics.explicit(pattern);
        assertThat(edges(explicit, explicit.edgesOut(), false))
                .isEqualTo(edges(pattern, pattern.edgesOut(), false));
        assertThat(edges(explicit, explicit.edgesIn(), true))
                .isEqualTo(edges(pattern, pattern.edgesOut(), false));
        assertThat(explicit.pads()).isEqualTo(pattern.pads());
        for (int v = 0; v < pattern.vertexCount(); v++) {
            assertThat(explicit.vertexName(v)).isEqualTo(pattern.vertexName(v));
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void everyTileHasTheEdgesItsOwnBoxesMake(long seed) throws PatternFault {
        PatternSpec spec = RandomFabrics.pattern(seed);
        Fabric fabric = PatternFabric.compile(spec);
        // A wire enters others only where it ends, or where it starts when it is bidirectional.
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                boolean meetAtHead = touches(fabric, edges.other(), fabric.headTile(v));
                boolean meetAtStart = touches(fabric, edges.other(), fabric.tile(v));
                assertThat(meetAtHead || (twoWay(spec, fabric, v) && meetAtStart)).isTrue();
            }
        }
    }

    private static boolean touches(Fabric fabric, int vertex, int tile) {
        return fabric.tile(vertex) == tile || fabric.headTile(vertex) == tile;
    }

    private static boolean twoWay(PatternSpec spec, Fabric fabric, int vertex) {
        PatternSpec.WireKind kind = spec.wiresByName().get(fabric.wireKind(vertex));
        return kind != null && kind.twoWay();
    }

    private static Set<String> edges(Fabric fabric, EdgeCursor cursor, boolean incoming) {
        Set<String> result = new HashSet<>();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            cursor.reset(v);
            while (cursor.next()) {
                String own = fabric.vertexName(v);
                String other = fabric.vertexName(cursor.other());
                String ends = incoming ? other + " > " + own : own + " > " + other;
                assertThat(result.add(ends + " " + cursor.kind() + " " + cursor.delay())).isTrue();
            }
        }
        return result;
    }
}
