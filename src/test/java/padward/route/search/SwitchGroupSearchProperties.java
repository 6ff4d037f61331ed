package padward.route.search;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.example.HandMade;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKey;
import padward.fabric.Fabric;
import padward.fabric.SwitchGroups;
import padward.fabric.delay.Corner;
import padward.route.cost.CostModel;
import padward.route.cost.SwitchRule;
import padward.route.cost.SwitchRuleCost;
import padward.route.jgrapht.ReferenceSearch;

/** Routes among switches that exclude each other, against all simple paths, on small graphs. */
class SwitchGroupSearchProperties {
    private static final int GRAPHS = 1_000;

    private int found;
    private int dearer;
    private int none;

    @Test
    void noCheaperRouteObeys() {
        for (long seed = 0; seed < GRAPHS; seed++) {
            check(seed);
        }
        assertThat(found).isGreaterThan(500);
        assertThat(dearer).isGreaterThan(50);
        assertThat(none).isGreaterThan(20);
    }

    private void check(long seed) {
        Random random = new Random(seed);
        int wires = 6 + random.nextInt(6);
        HandMade made = new HandMade();
        List<String> edges = new ArrayList<>();
        for (int w = 0; w < wires; w++) {
            made.wires("w" + w);
            for (int k = 0; k < 3; k++) {
                int to = (w + 1 + random.nextInt(wires - 1)) % wires;
                if (!edges.contains("w" + w + " w" + to)) {
                    edges.add("w" + w + " w" + to);
                    made.chain("w" + w + " w" + to, 1 + random.nextInt(50), 60);
                }
            }
        }
        Collections.shuffle(edges, random);
        int size = 2 + random.nextInt(5);
        for (int g = 0; (g + 1) * size <= edges.size() && g < 5; g++) {
            made.switchGroup(
                    "g" + g, edges.subList(g * size, g * size + size).toArray(new String[0]));
        }
        Fabric fabric = made.fabric();
        // One of the groups is set by something else: its other switches are closed.
        int set = random.nextInt(fabric.switchGroups().count());
        long on = fabric.switchGroups().switches(set).getLong(0);
        SwitchRule rule =
                (from, to) ->
                        fabric.switchGroups().groupOf(from, to) == set && EdgeKey.of(from, to) != on
                                ? CostModel.CLOSED
                                : 0;
        CostModel model = new SwitchRuleCost(CostModel.EMPTY_FABRIC, rule);
        int goal = wires - 1;
        SearchSources sources = new SearchSources(new int[] {0}, new long[] {0});
        long best = new Paths(fabric, goal, rule).least();
        for (RouteFinder inner :
                List.of(
                        new PerimeterSearch(new PathSearch(fabric)),
                        ReferenceSearch.dijkstra(fabric))) {
            RouteFinder finder = SwitchGroupSearch.over(fabric, inner);
            SearchOutcome outcome = finder.find(sources, goal, Corner.FAST, model, Progress.NONE);
            boolean given = outcome instanceof SearchOutcome.Unreachable none && !none.proven();
            assertThat(given).as("given up without proof, seed " + seed).isFalse();
            long cost = outcome instanceof SearchOutcome.Found f ? f.cost() : CostModel.CLOSED;
            assertThat(cost).as("seed " + seed).isEqualTo(best);
            if (outcome instanceof SearchOutcome.Found f) {
                assertThat(((SwitchGroupSearch) finder).obeys(f.path(), rule)).isTrue();
            }
        }
        SearchOutcome without =
                new PerimeterSearch(new PathSearch(fabric))
                        .find(sources, goal, Corner.FAST, CostModel.EMPTY_FABRIC, Progress.NONE);
        found += best == CostModel.CLOSED ? 0 : 1;
        none += best == CostModel.CLOSED ? 1 : 0;
        boolean less = without instanceof SearchOutcome.Found f && f.cost() < best;
        dearer += less && best != CostModel.CLOSED ? 1 : 0;
    }

    /** All simple paths from the first wire. */
    private static final class Paths {
        private final Fabric fabric;
        private final int goal;
        private final SwitchRule rule;
        private final List<Integer> path = new ArrayList<>();
        private final List<Integer> groupsOn = new ArrayList<>();
        private long best = CostModel.CLOSED;

        Paths(Fabric fabric, int goal, SwitchRule rule) {
            this.fabric = fabric;
            this.goal = goal;
            this.rule = rule;
        }

        long least() {
            go(0, 0);
            return best;
        }

        private void go(int at, long cost) {
            if (at == goal) {
                best = Math.min(best, cost);
                return;
            }
            path.add(at);
            SwitchGroups groups = fabric.switchGroups();
            EdgeCursor edges = fabric.edgesOut();
            edges.reset(at);
            while (edges.next()) {
                int to = edges.other();
                Integer group = groups.groupOf(at, to);
                boolean shut =
                        path.contains(to) || groupsOn.contains(group) || rule.price(at, to) != 0;
                if (!shut) {
                    if (group >= 0) {
                        groupsOn.add(group);
                    }
                    go(to, cost + edges.delayPs(Corner.FAST));
                    if (group >= 0) {
                        groupsOn.remove(group);
                    }
                }
            }
            path.remove(path.size() - 1);
        }
    }
}
