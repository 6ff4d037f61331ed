package padward.ui.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.VertexKind;
import padward.fabric.explicit.ExplicitBuilder;
import padward.synth.DesignMaker;

/** Wires that bend, in bundles: judged by the lines of the map alone. */
class BundlesTest {
    private static final int SIDE = 12;
    private static final double LEAST = 1e-9;

    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    /** A straight line of a wire on the map. */
    private record Line(int wire, double x0, double y0, double x1, double y1) {
        boolean lies() {
            return Math.abs(y1 - y0) < LEAST;
        }

        boolean isOn(Line other) {
            if (lies() && other.lies()) {
                return Math.abs(y0 - other.y0) < LEAST && overlap(x0, x1, other.x0, other.x1);
            }
            boolean stand = Math.abs(x1 - x0) < LEAST && Math.abs(other.x1 - other.x0) < LEAST;
            return stand && Math.abs(x0 - other.x0) < LEAST && overlap(y0, y1, other.y0, other.y1);
        }

        private static boolean overlap(double a, double b, double c, double d) {
            return Math.max(Math.min(a, b), Math.min(c, d)) + LEAST
                    < Math.min(Math.max(a, b), Math.max(c, d));
        }

        /** Whether two lines cross or touch: each has its ends on both sides of the other. */
        boolean crosses(Line other) {
            return side(other.x0, other.y0) * side(other.x1, other.y1) <= 0
                    && other.side(x0, y0) * other.side(x1, y1) <= 0;
        }

        private double side(double x, double y) {
            return Math.signum((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0));
        }
    }

    private static List<Line> lines(Fabric fabric) {
        TileLayout layout = new TileLayout(fabric, new TileIndex(fabric));
        List<Line> result = new ArrayList<>();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            int wire = v;
            boolean passesTiles =
                    fabric.kind(v) == VertexKind.WIRE
                            && (fabric.tapTiles(v).length > 1
                                    || fabric.tile(v) != fabric.headTile(v));
            if (passesTiles) {
                layout.forEachLeg(
                        v, (x0, y0, x1, y1) -> result.add(new Line(wire, x0, y0, x1, y1)));
            }
        }
        return result;
    }

    private static void noneOnAnother(Fabric fabric) {
        List<Line> lines = lines(fabric);
        for (int i = 0; i < lines.size(); i++) {
            for (int k = i + 1; k < lines.size(); k++) {
                Line one = lines.get(i);
                Line other = lines.get(k);
                if (one.wire() != other.wire() && one.isOn(other)) {
                    assertThat(fabric.vertexName(one.wire()))
                            .isEqualTo("not on " + fabric.vertexName(other.wire()));
                }
            }
        }
    }

    /** A way with two corners or three: like stairs, or like the letter U. */
    private static List<Integer> bentWay(Random random) {
        int x = 4 + random.nextInt(4);
        int y = 4 + random.nextInt(4);
        int right = random.nextBoolean() ? 1 : -1;
        int up = random.nextBoolean() ? 1 : -1;
        int back = random.nextBoolean() ? 1 : -1;
        List<Integer> taps = new ArrayList<>();
        taps.add(y * SIDE + x);
        x += right * (1 + random.nextInt(2));
        taps.add(y * SIDE + x);
        y += up * (1 + random.nextInt(4));
        taps.add(y * SIDE + x);
        x += back * right;
        taps.add(y * SIDE + x);
        return taps;
    }

    private static ExplicitBuilder plainGrid() {
        ExplicitBuilder builder =
                new ExplicitBuilder(
                        new FabricInfo("grid", "", List.of(), List.of(), List.of()), SIDE, SIDE);
        for (int tile = 0; tile < SIDE * SIDE; tile++) {
            builder.addTile(tile % SIDE, tile / SIDE, "plain");
        }
        return builder;
    }

    private static Fabric bundles(Random random) {
        ExplicitBuilder builder = plainGrid();
        for (int bundle = 0; bundle < 6; bundle++) {
            List<Integer> way = bentWay(random);
            int wide = 2 + random.nextInt(4);
            for (int i = 0; i < wide; i++) {
                String name = "b" + bundle + "_" + i;
                int last = way.get(way.size() - 1);
                int wire = builder.addWire(name, way.get(0), last, "b" + bundle);
                for (int tap : way) {
                    builder.addTap(wire, tap, "");
                }
            }
        }
        for (int i = 0; i < 40; i++) {
            int tile = random.nextInt(SIDE * SIDE);
            boolean across = random.nextBoolean();
            int end =
                    across
                            ? tile / SIDE * SIDE + random.nextInt(SIDE)
                            : random.nextInt(SIDE) * SIDE + tile % SIDE;
            builder.addWire("s" + i, tile, end, "straight");
        }
        return builder.build();
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void noWireLiesOnAnother(long seed) {
        noneOnAnother(bundles(new Random(seed)));
    }

    /** Wires that can be entered and left only beside the row and column in which they begin. */
    @Test
    void wiresWithTapsBesideTheirBeginHaveLanesOfTheirTaps() {
        ExplicitBuilder builder = plainGrid();
        for (int i = 0; i < 20; i++) {
            builder.addWire("inside" + i, 0, 0, "plain");
        }
        int lying = builder.addWire("lying", 0, SIDE + 4, "plain");
        builder.addTap(lying, SIDE + 2, "");
        builder.addTap(lying, SIDE + 4, "");
        int standing = builder.addWire("standing", 0, 4 * SIDE + 1, "plain");
        builder.addTap(standing, 2 * SIDE + 1, "");
        builder.addTap(standing, 4 * SIDE + 1, "");
        int across = builder.addWire("across", SIDE + 2, SIDE + 5, "plain");
        int up = builder.addWire("up", SIDE + 1, 5 * SIDE + 1, "plain");
        Fabric fabric = builder.build();
        assertThat(lines(fabric))
                .extracting(Line::wire)
                .containsExactlyInAnyOrder(lying, standing, across, up);
        noneOnAnother(fabric);
    }

    @Test
    void noWireOfAnIrregularDeviceLiesOnAnother() {
        noneOnAnother(DesignMaker.makeIrregular(1500, 3, 0.6, Progress.NONE).design().fabric());
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void wiresOfABundleDoNotCrossAtItsBends(long seed) {
        Fabric fabric = bundles(new Random(seed));
        List<Line> lines = lines(fabric);
        int checked = 0;
        for (Line one : lines) {
            for (Line other : lines) {
                boolean sameBundle =
                        one.wire() < other.wire()
                                && fabric.vertexName(one.wire()).startsWith("b")
                                && fabric.wireKind(one.wire())
                                        .equals(fabric.wireKind(other.wire()));
                if (sameBundle) {
                    checked++;
                    assertThat(one.crosses(other))
                            .as(fabric.vertexName(one.wire()) + fabric.vertexName(other.wire()))
                            .isFalse();
                }
            }
        }
        assertThat(checked).isGreaterThan(50);
    }
}
