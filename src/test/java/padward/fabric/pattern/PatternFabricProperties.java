package padward.fabric.pattern;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
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
            String name = fabric.vertexName(v);
            assertThat(fabric.findVertex(name)).isEqualTo(v);
            // A number is spelled in one manner, of tiles and of wires.
            for (String other : v % 37 == 0 ? otherSpellings(name) : List.<String>of()) {
                assertThat(fabric.findVertex(other)).as(other).isEqualTo(Fabric.NOTHING);
            }
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
        // A wire enters others only where it ends or has a tap, or also where it starts when it is
        // bidirectional.
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                int other = edges.other();
                boolean meetOnTheWay =
                        Arrays.stream(fabric.tapTiles(v))
                                .skip(fabric.headTile(v) == fabric.tile(v) ? 0 : 1)
                                .anyMatch(tap -> touches(fabric, other, tap));
                boolean meetAtStart = touches(fabric, other, fabric.tile(v));
                assertThat(meetOnTheWay || (twoWay(spec, fabric, v) && meetAtStart)).isTrue();
            }
        }
    }

    /**
     * At a tap, a wire has the edges that it would have if it ended there. The reference fabrics
     * have no taps: in each, the kinds of long wires end at another one of their exits.
     */
    @ParameterizedTest
    @MethodSource("seeds")
    void aWireHasAtATapTheEdgesOfAWireThatEndsThere(long seed) throws PatternFault {
        PatternSpec spec = RandomFabrics.pattern(seed);
        Fabric fabric = PatternFabric.compile(spec);
        Set<String> expected = new HashSet<>();
        int exits = spec.wires().stream().mapToInt(PatternSpec.WireKind::exits).max().orElseThrow();
        for (int exit = 0; exit < exits; exit++) {
            Fabric shorter = PatternFabric.compile(endingAt(spec, exit));
            edges(shorter, shorter.edgesOut(), false).stream()
                    .filter(edge -> bothExist(fabric, edge))
                    .forEach(expected::add);
        }
        assertThat(edges(fabric, fabric.edgesOut(), false)).isEqualTo(expected);
    }

    private static PatternSpec endingAt(PatternSpec spec, int exit) {
        List<PatternSpec.WireKind> wires = new ArrayList<>();
        for (PatternSpec.WireKind w : spec.wires()) {
            int at = Math.min(exit, w.taps().size());
            int length = at < w.taps().size() ? w.taps().get(at) : Math.abs(w.dx() + w.dy());
            wires.add(
                    new PatternSpec.WireKind(
                            w.name(),
                            Integer.signum(w.dx()) * length,
                            Integer.signum(w.dy()) * length,
                            w.count(),
                            w.delay(),
                            w.twoWay(),
                            w.use()));
        }
        return new PatternSpec(
                spec.info(),
                spec.columns(),
                spec.rows(),
                wires,
                spec.tileTypes(),
                spec.areas(),
                spec.padOverrides());
    }

    private static boolean bothExist(Fabric fabric, String edge) {
        String[] words = edge.split(" ");
        return fabric.findVertex(words[0]) != Fabric.NOTHING
                && fabric.findVertex(words[2]) != Fabric.NOTHING;
    }

    @Test
    void tapsThatCannotBeAreRefused() {
        assertThatThrownBy(() -> withTaps(4, 0, 2, 2))
                .hasMessageContaining("$.wires[0].taps")
                .hasMessageContaining("rising numbers of tiles from 1 to 3");
        assertThatThrownBy(() -> withTaps(0, -3, 3))
                .hasMessageContaining("rising numbers of tiles from 1 to 2");
        assertThatThrownBy(() -> withTaps(2, 2, 1))
                .hasMessageContaining("taps only on wires along a row or a column");
    }

    private static void withTaps(int dx, int dy, Integer... taps) throws PatternFault {
        PatternSpec spec = RandomFabrics.pattern(0);
        List<PatternSpec.WireKind> wires = new ArrayList<>(spec.wires());
        PatternSpec.WireKind w = wires.get(0);
        wires.set(
                0,
                new PatternSpec.WireKind(
                        w.name(), dx, dy, w.count(), w.delay(), false, w.use(), List.of(taps)));
        PatternFabric.compile(
                new PatternSpec(
                        spec.info(),
                        spec.columns(),
                        spec.rows(),
                        wires,
                        spec.tileTypes(),
                        spec.areas(),
                        spec.padOverrides()));
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

    private static List<String> otherSpellings(String name) {
        return List.of(
                        name.replace("x", "x0"),
                        name.replaceFirst("y", "y0"),
                        name.replaceFirst("y(\\d)", "y+$1"),
                        name.replace("[", "[0"),
                        name + "[0]",
                        name.replace("/", ""),
                        name.replaceFirst("x\\d+", "x999999999999"))
                .stream()
                .filter(n -> !n.equals(name))
                .toList();
    }
}
