package padward.ui.design;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.stream.LongStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.explicit.ExplicitBuilder;

/** How wires with taps run over the map. */
class WirePathTest {
    private static final int SIDE = 9;

    private static Fabric grid() {
        return new ExplicitBuilder(
                        new FabricInfo("grid", "", List.of(), List.of(), List.of()), SIDE, SIDE)
                .build();
    }

    static LongStream seeds() {
        return LongStream.range(0, 300);
    }

    private static boolean isStraight(int one, int other) {
        return one != other && (one % SIDE == other % SIDE || one / SIDE == other / SIDE);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void everyTapIsOnOneTreeOfStraightLegs(long seed) {
        Random random = new Random(seed);
        int[] taps = random.ints(1 + random.nextInt(14), 0, SIDE * SIDE).toArray();
        WirePath path = WirePath.of(grid(), taps);
        assertThat(path.tile(0)).isEqualTo(taps[0]);
        for (int tap : taps) {
            assertThat(path.placeIn(tap)).isNotEqualTo(Fabric.NOTHING);
        }
        Set<Integer> tiles = new HashSet<>();
        for (int place = 0; place < path.size(); place++) {
            assertThat(tiles.add(path.tile(place))).isTrue();
            if (place > 0) {
                assertThat(path.parent(place)).isBetween(0, place - 1);
                assertThat(isStraight(path.tile(place), path.tile(path.parent(place)))).isTrue();
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void thePartBetweenTwoTapsFollowsTheLegsWithoutTurningBack(long seed) {
        Random random = new Random(seed);
        int[] taps = random.ints(2 + random.nextInt(14), 0, SIDE * SIDE).toArray();
        WirePath path = WirePath.of(grid(), taps);
        int from = path.placeIn(taps[random.nextInt(taps.length)]);
        int to = path.placeIn(taps[random.nextInt(taps.length)]);
        int[] places = path.between(from, to);
        assertThat(places[0]).isEqualTo(from);
        assertThat(places[places.length - 1]).isEqualTo(to);
        Set<Integer> seen = new HashSet<>();
        for (int i = 0; i < places.length; i++) {
            assertThat(seen.add(places[i])).isTrue();
            if (i > 0) {
                boolean leg =
                        path.parent(places[i]) == places[i - 1]
                                || path.parent(places[i - 1]) == places[i];
                assertThat(leg).isTrue();
            }
        }
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void whereOnlyOneLegEndsIsToldWithTheDirections(long seed) {
        Random random = new Random(seed);
        int[] taps = random.ints(1 + random.nextInt(14), 0, SIDE * SIDE).toArray();
        WirePath path = WirePath.of(grid(), taps);
        for (int place = 0; place < path.size(); place++) {
            List<Integer> next = new ArrayList<>();
            for (int other = 0; other < path.size(); other++) {
                if (path.parent(other) == place || path.parent(place) == other && place > 0) {
                    next.add(other);
                }
            }
            int here = path.tile(place);
            assertThat(path.onlyNeighbour(place))
                    .isEqualTo(next.size() == 1 ? next.get(0) : Fabric.NOTHING);
            assertThat(path.runsAlongRow(place))
                    .isEqualTo(next.stream().anyMatch(n -> path.tile(n) / SIDE == here / SIDE));
            assertThat(path.runsAlongColumn(place))
                    .isEqualTo(next.stream().anyMatch(n -> path.tile(n) % SIDE == here % SIDE));
        }
    }

    @Test
    void aWireThatSpreadsIsASpineWithRibs() {
        // taps in two rows, left and right of the column in which it begins
        int[] taps = {4, 10, 11, 12, 14, 15, 16, 19, 20, 21, 23, 24, 25};
        WirePath path = WirePath.of(grid(), taps);
        assertThat(path.tile(path.parent(path.placeIn(19)))).isEqualTo(20);
        assertThat(path.tile(path.parent(path.placeIn(21)))).isEqualTo(18 + 4);
        assertThat(path.tile(path.parent(path.placeIn(18 + 4)))).isEqualTo(9 + 4);
    }

    @Test
    void aStraightWireIsOneLineOfLegs() {
        WirePath path = WirePath.of(grid(), new int[] {2, 4, 8});
        assertThat(path.size()).isEqualTo(3);
        assertThat(path.between(0, 2)).containsExactly(0, 1, 2);
    }
}
