package padward.ui.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.base.Progress;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.VertexKind;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.format.design.DesignReader;

/** Wires on the map: no two coincide, none is left out, channels count their wires. */
class LanesTest {
    static LongStream seeds() {
        return LongStream.range(0, 25);
    }

    /** A straight wire in its channel: along a row, or along a column. */
    private record Lying(boolean acrossRow, int channel, int from, int to, int lane, int wire) {}

    private static List<Lying> lying(Fabric fabric, TileIndex index) {
        List<Lying> result = new ArrayList<>();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            if (fabric.kind(v) != VertexKind.WIRE || fabric.tile(v) == fabric.headTile(v)) {
                continue;
            }
            int x0 = fabric.column(fabric.tile(v));
            int x1 = fabric.column(fabric.headTile(v));
            int y0 = fabric.row(fabric.tile(v));
            int y1 = fabric.row(fabric.headTile(v));
            int lane = index.lanes().of(v);
            if (y0 == y1) {
                result.add(new Lying(true, y0, Math.min(x0, x1), Math.max(x0, x1), lane, v));
            } else if (x0 == x1) {
                result.add(new Lying(false, x0, Math.min(y0, y1), Math.max(y0, y1), lane, v));
            }
        }
        return result;
    }

    private static void check(Fabric fabric) {
        TileIndex index = new TileIndex(fabric);
        List<Lying> wires = lying(fabric, index);
        for (int i = 0; i < wires.size(); i++) {
            Lying one = wires.get(i);
            assertThat(one.lane()).isLessThan(index.lanes().count());
            for (int k = i + 1; k < wires.size(); k++) {
                Lying other = wires.get(k);
                boolean onEachOther =
                        one.acrossRow() == other.acrossRow()
                                && one.channel() == other.channel()
                                && one.lane() == other.lane()
                                && one.from() < other.to()
                                && other.from() < one.to();
                if (onEachOther) {
                    assertThat(fabric.vertexName(one.wire()))
                            .isEqualTo("not on " + fabric.vertexName(other.wire()));
                }
            }
        }
        // The left-edge method needs as many lanes as there are wires side by side at the fullest
        // place.
        assertThat(index.lanes().count()).isEqualTo(Math.max(1, fullest(wires)));
    }

    private static int fullest(List<Lying> wires) {
        int most = 0;
        for (Lying at : wires) {
            most =
                    Math.max(
                            most,
                            (int)
                                    wires.stream()
                                            .filter(
                                                    w ->
                                                            w.acrossRow() == at.acrossRow()
                                                                    && w.channel() == at.channel()
                                                                    && w.from() <= at.from()
                                                                    && w.to() > at.from())
                                            .count());
        }
        return most;
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void noTwoWiresCoincideOnRandomFabrics(long seed) throws PatternFault {
        Fabric pattern = PatternFabric.compile(RandomFabrics.pattern(seed));
        check(pattern);
        check(RandomFabrics.explicit(pattern));
    }

    @Test
    void allVerticesAreInTheirTiles() throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        Fabric fabric = design.fabric();
        TileIndex index = new TileIndex(fabric);
        int[] seen = new int[fabric.vertexCount()];
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            for (int i = index.first(tile); i < index.first(tile + 1); i++) {
                assertThat(fabric.tile(index.vertex(i))).isEqualTo(tile);
                seen[index.vertex(i)]++;
            }
        }
        assertThat(IntStream.of(seen)).containsOnly(1);
    }

    @Test
    void channelsShowTheShareOfUsedWires() throws Exception {
        Design design =
                DesignReader.read(Path.of("fixtures/small/only.design.json"), Progress.NONE);
        Fabric fabric = design.fabric();
        TileIndex index = new TileIndex(fabric);
        ChannelFill fill = ChannelFill.of(fabric, index, design.occupancy());
        check(design, fill, index);
        Design without = Outcome.apply(design, List.of(new Edit.RemoveNet("alarm/beep")));
        ChannelFill fewer = fill.with(design.occupancy(), without.occupancy());
        check(without, fewer, index);
        check(design, fewer.with(without.occupancy(), design.occupancy()), index);
    }

    private static void check(Design design, ChannelFill fill, TileIndex index) {
        Fabric fabric = design.fabric();
        List<Lying> wires = lying(fabric, index);
        for (int tile = 0; tile < fabric.tileCount(); tile++) {
            int x = fabric.column(tile);
            int y = fabric.row(tile);
            assertThat(fill.across(tile)).isEqualTo(share(design, wires, true, y, x));
            assertThat(fill.along(tile)).isEqualTo(share(design, wires, false, x, y));
        }
    }

    private static float share(
            Design design, List<Lying> wires, boolean acrossRow, int channel, int place) {
        List<Lying> passing =
                wires.stream()
                        .filter(w -> w.acrossRow() == acrossRow && w.channel() == channel)
                        .filter(w -> w.from() <= place && w.to() >= place)
                        .toList();
        long used = passing.stream().filter(w -> design.occupancy().isOccupied(w.wire())).count();
        return passing.isEmpty() ? 0 : (float) used / passing.size();
    }
}
