package padward.fabric.explicit;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashSet;
import java.util.Random;
import java.util.Set;
import java.util.stream.IntStream;
import java.util.stream.LongStream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import padward.fabric.array.RowNumbers;

/** Whatever leads to nothing is looked at; most of what leads to something is not. */
class RowReachTest {
    private static final int TILES = 40;

    static LongStream seeds() {
        return LongStream.range(0, 200);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void rowsThatLeadTooFarAreFollowed(long seed) throws Exception {
        Random random = new Random(seed);
        boolean fromPlace = random.nextBoolean();
        TileOffsets things = drawn(random);
        TileOffsets targets = drawn(random);
        int[][] steps = new int[1 + random.nextInt(6)][];
        int[][] places = new int[steps.length][];
        int farthest = random.nextInt(8) == 0 ? Integer.MAX_VALUE : 1 + random.nextInt(12);
        RowReach reach = new RowReach(steps.length, targets, fromPlace);
        for (int row = 0; row < steps.length; row++) {
            int least = -farthest;
            int[] own = random.ints(random.nextInt(4), least, farthest).toArray();
            int[] to = random.ints(own.length, fromPlace ? least : 0, farthest).toArray();
            for (int i = 0; i < own.length; i++) {
                reach.add(row, own[i], to[i]);
            }
            steps[row] = own;
            places[row] = to;
        }
        int[] rowOfPlace = random.ints(things.count(), 0, steps.length).toArray();
        int[] runs = IntStream.range(0, TILES).map(things::first).toArray();
        Set<Integer> followed = new HashSet<>();
        reach.require(
                things,
                runs,
                new RowNumbers(rowOfPlace, steps.length),
                (tile, place) -> followed.add(things.first(tile) + place));
        for (int thing = 0; thing < things.count(); thing++) {
            int tile = things.tileOf(thing);
            int row = rowOfPlace[thing];
            int place = fromPlace ? thing - things.first(tile) : 0;
            for (int i = 0; i < steps[row].length; i++) {
                long other = (long) tile + steps[row][i];
                boolean exists =
                        other >= 0
                                && other < TILES
                                && isNumber(targets, (int) other, place + (long) places[row][i]);
                assertThat(exists || followed.contains(thing)).as("%d", thing).isTrue();
            }
            assertThat(followed.contains(thing) && steps[row].length == 0).isFalse();
        }
    }

    private static boolean isNumber(TileOffsets targets, int tile, long place) {
        long number = targets.first(tile) + place;
        return number >= 0 && number < targets.count();
    }

    private static TileOffsets drawn(Random random) {
        int[] tiles = random.ints(random.nextInt(300), 0, TILES).sorted().toArray();
        return TileOffsets.counting(TILES, tiles, tiles.length);
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void inTheMiddleNothingIsFollowed(long seed) throws Exception {
        Random random = new Random(seed);
        int[] tiles = IntStream.range(0, 10 * TILES).map(i -> i / 10).toArray();
        TileOffsets things = TileOffsets.counting(TILES, tiles, tiles.length);
        RowReach reach = new RowReach(1, things, true);
        reach.add(0, -random.nextInt(3), -random.nextInt(10));
        reach.add(0, random.nextInt(3), random.nextInt(10));
        Set<Integer> followed = new HashSet<>();
        int[] runs = new int[TILES];
        reach.require(
                things, runs, new RowNumbers(new int[10], 1), (tile, place) -> followed.add(tile));
        assertThat(followed).allMatch(tile -> tile < 4 || tile >= TILES - 4);
    }
}
