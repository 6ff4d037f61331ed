package padward.unblock;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.IntList;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.FabricInfo;
import padward.fabric.delay.Delay;
import padward.fabric.explicit.ExplicitBuilder;
import padward.fabric.explicit.ExplicitFabric;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.search.SearchSources;
import padward.unblock.why.Chokepoints;

/**
 * Chokepoints of random graphs in chains, so that there are several of them, against closing each
 * vertex in turn.
 */
class ChokepointsProperties {
    private static final FabricInfo INFO =
            new FabricInfo("random", "", List.of(), List.of(), List.of());

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void areWhatNoRouteIsWithout(long seed) {
        Random random = new Random(seed);
        int several = 0;
        for (int round = 0; round < 400; round++) {
            Fabric fabric = chained(random);
            int count = fabric.vertexCount();
            SearchSources starts = starts(random, count);
            for (int goal = 0; goal < count; goal += 1 + random.nextInt(4)) {
                IntList route = SomeRoute.find(fabric, starts, goal, CostModel.EMPTY_FABRIC);
                if (!route.isEmpty() && !isStart(starts, goal)) {
                    int turn = 1 + random.nextInt(20);
                    List<Integer> found =
                            List.copyOf(
                                    Chokepoints.along(
                                            fabric,
                                            starts,
                                            route,
                                            CostModel.EMPTY_FABRIC,
                                            turn,
                                            Progress.NONE));
                    assertThat(found)
                            .as("seed %d, round %d, goal %d", seed, round, goal)
                            .isEqualTo(expected(fabric, starts, goal, route));
                    several += found.size() > 2 ? 1 : 0;
                }
            }
        }
        assertThat(several).as("cases with several").isGreaterThan(100);
    }

    private static List<Integer> expected(
            Fabric fabric, SearchSources starts, int goal, IntList route) {
        List<Integer> result = new ArrayList<>();
        for (int shut : route) {
            CustomCost without = (from, to, delayPs) -> to == shut ? CostModel.CLOSED : delayPs;
            if (!isStart(starts, shut) && SomeRoute.find(fabric, starts, goal, without).isEmpty()) {
                result.add(shut);
            }
        }
        return result;
    }

    private static boolean isStart(SearchSources starts, int vertex) {
        for (int i = 0; i < starts.size(); i++) {
            if (starts.vertex(i) == vertex) {
                return true;
            }
        }
        return false;
    }

    /** One start, or several that lie near each other. */
    private static SearchSources starts(Random random, int count) {
        int size = 1 + random.nextInt(3);
        int first = random.nextInt(count - size);
        int[] vertices = new int[size];
        for (int i = 0; i < size; i++) {
            vertices[i] = first + i;
        }
        return new SearchSources(vertices, new long[size]);
    }

    /** Edges mostly between near numbers, both ways; tiles in two rows or columns, few in each. */
    private static ExplicitFabric chained(Random random) {
        int count = 6 + random.nextInt(30);
        int length = 1 + count / 4;
        boolean upright = random.nextBoolean();
        ExplicitBuilder builder =
                new ExplicitBuilder(INFO, upright ? 2 : length, upright ? length : 2);
        for (int v = 0; v < count; v++) {
            int along = v / 4;
            int across = random.nextInt(2);
            int tile = upright ? 2 * along + across : along + across * length;
            builder.addWire("w" + v, tile, tile, "wire");
        }
        Set<Integer> drawn = new HashSet<>();
        int reach = 1 + random.nextInt(4);
        int edges = count + random.nextInt(2 * count);
        for (int e = 0; e < edges; e++) {
            int from = random.nextInt(count);
            int to = Math.min(count - 1, Math.max(0, from - reach + random.nextInt(3 * reach)));
            if (from != to && drawn.add(from * count + to)) {
                builder.addEdge(
                        builder.findVertex("w" + from),
                        builder.findVertex("w" + to),
                        EdgeKind.SWITCH,
                        new Delay(1, 1));
            }
        }
        return builder.build();
    }
}
