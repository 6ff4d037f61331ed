package padward.route.flow;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.RandomFabrics;
import padward.fabric.delay.Corner;
import padward.fabric.pattern.PatternFabric;
import padward.route.cost.BlockedVertices;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;
import padward.synth.DesignMaker;

/**
 * The greatest number of routes and their least cost on random fabrics, pattern and explicit,
 * against two of JGraphT's flow algorithms on a graph with split vertices that is built here; the
 * routes themselves and the cuts against plain sets.
 */
class DisjointRouteProperties {
    private static int served;
    private static int left;
    private static int cutVertices;

    /** A drawn question. */
    record Case(
            Fabric fabric,
            Corner corner,
            BitSet blocked,
            List<int[]> trees,
            List<int[]> starts,
            List<FlowGoal> goals) {}

    @Test
    void asManyAndAsCheapAsJGraphT() throws Exception {
        check(0, 400);
    }

    @Test
    @Tag("slow")
    void asManyAndAsCheapAsJGraphTOnMore() throws Exception {
        check(400, 4000);
    }

    /** Long wires with taps, bends, a cut corner, tables that let signals through. */
    @Test
    void asManyAndAsCheapAsJGraphTOnIrregularFabrics() {
        checkIrregular(0, 60);
    }

    @Test
    @Tag("slow")
    void asManyAndAsCheapAsJGraphTOnAThousandIrregularFabrics() {
        checkIrregular(60, 1_060);
    }

    private static void checkIrregular(int first, int end) {
        for (int seed = first; seed < end; seed++) {
            int wires = 120 + 40 * (seed % 5);
            Fabric fabric =
                    DesignMaker.makeIrregular(wires, seed, 0.2, Progress.NONE).design().fabric();
            check(drawOn(fabric, new Random(seed)), seed);
        }
    }

    private static void check(int first, int end) throws Exception {
        for (int seed = first; seed < end; seed++) {
            check(draw(seed), seed);
        }
    }

    private static void check(Case drawn, int seed) {
        List<SearchSources> nets = new ArrayList<>();
        for (int n = 0; n < drawn.trees().size(); n++) {
            long[] costs = new long[drawn.starts().get(n).length];
            for (int i = 0; i < costs.length; i++) {
                costs[i] = drawn.starts().get(n)[i];
            }
            nets.add(new SearchSources(drawn.trees().get(n), costs));
        }
        DisjointRoutes found =
                DisjointRouteFinder.find(
                        drawn.fabric(),
                        drawn.corner(),
                        BlockedVertices.of(drawn.blocked()),
                        nets,
                        drawn.goals(),
                        Progress.NONE);
        check(drawn, found, seed);
        served += found.served();
        left += nets.size() - found.served();
    }

    static Case draw(int seed) throws Exception {
        Random random = new Random(seed);
        Fabric pattern = PatternFabric.compile(RandomFabrics.pattern(seed));
        return drawOn(seed % 3 == 0 ? RandomFabrics.explicit(pattern) : pattern, random);
    }

    private static Case drawOn(Fabric fabric, Random random) {
        int count = fabric.vertexCount();
        List<Integer> order = new ArrayList<>();
        for (int v = 0; v < count; v++) {
            order.add(v);
        }
        Collections.shuffle(order, random);
        BitSet blocked = new BitSet();
        double share = random.nextDouble() * 0.5;
        for (int v = 0; v < count; v++) {
            if (random.nextDouble() < share) {
                blocked.set(v);
            }
        }
        int nets = 1 + random.nextInt(8);
        List<int[]> trees = new ArrayList<>();
        List<int[]> starts = new ArrayList<>();
        int at = 0;
        for (int n = 0; n < nets && at + 4 < count / 2; n++) {
            int size = 1 + random.nextInt(3);
            int[] tree = new int[size];
            int[] start = new int[size];
            for (int i = 0; i < size; i++) {
                tree[i] = order.get(at++);
                start[i] = random.nextInt(300);
            }
            trees.add(tree);
            starts.add(start);
        }
        List<FlowGoal> goals = new ArrayList<>();
        int wanted = 1 + random.nextInt(nets + 3);
        for (int i = 0; i < wanted && at < count; i++) {
            goals.add(new FlowGoal(order.get(at++), random.nextInt(2) * random.nextInt(5000)));
        }
        Corner corner = random.nextBoolean() ? Corner.FAST : Corner.SLOW;
        return new Case(fabric, corner, blocked, trees, starts, goals);
    }

    private static void check(Case drawn, DisjointRoutes found, int seed) {
        Fabric fabric = drawn.fabric();
        Map<Integer, Integer> net = new HashMap<>();
        Map<Integer, Integer> start = new HashMap<>();
        for (int n = 0; n < drawn.trees().size(); n++) {
            for (int i = 0; i < drawn.trees().get(n).length; i++) {
                net.put(drawn.trees().get(n)[i], n);
                start.put(drawn.trees().get(n)[i], drawn.starts().get(n)[i]);
            }
        }
        Map<Integer, Integer> goal = new HashMap<>();
        drawn.goals().forEach(g -> goal.put(g.vertex(), g.cost()));
        Map<Integer, Map<Integer, Integer>> out = new HashMap<>();
        EdgeCursor edges = fabric.edgesOut();
        for (int v = 0; v < fabric.vertexCount(); v++) {
            edges.reset(v);
            while (edges.next()) {
                out.computeIfAbsent(v, k -> new HashMap<>())
                        .merge(edges.other(), edges.delayPs(drawn.corner()), Math::min);
            }
        }
        // The routes are routes.
        Set<Integer> used = new HashSet<>();
        long cost = 0;
        for (int n = 0; n < found.routes().size(); n++) {
            if (found.routes().get(n).isEmpty()) {
                continue;
            }
            VertexPath route = found.routes().get(n).get();
            assertThat(net.get(route.first())).as("seed %d", seed).isEqualTo(n);
            assertThat(goal).containsKey(route.last());
            cost += start.get(route.first()) + goal.get(route.last());
            for (int i = 1; i < route.size(); i++) {
                int v = route.vertex(i);
                assertThat(used.add(v)).as("seed %d: vertex %d twice", seed, v).isTrue();
                assertThat(net).doesNotContainKey(v);
                boolean last = i == route.size() - 1;
                assertThat(goal.containsKey(v)).isEqualTo(last);
                assertThat(last || !drawn.blocked().get(v)).isTrue();
                assertThat(out.get(route.vertex(i - 1))).containsKey(v);
                cost += out.get(route.vertex(i - 1)).get(v);
            }
        }
        assertThat(found.cost()).as("seed %d", seed).isEqualTo(cost);
        assertThat(found.proven()).isTrue();
        FlowReferee.Judgement judged =
                FlowReferee.judge(
                        fabric,
                        drawn.corner(),
                        drawn.blocked(),
                        drawn.trees(),
                        drawn.starts(),
                        drawn.goals());
        assertThat(found.served()).as("seed %d: number", seed).isEqualTo(judged.most());
        assertThat(found.cost()).as("seed %d: cost", seed).isEqualTo(judged.cost());
        if (found.cut().isPresent()) {
            checkCut(drawn, found.cut().get(), found, net, goal, out, seed);
        } else {
            assertThat(found.served()).isEqualTo(drawn.trees().size());
        }
    }

    /** Without its vertices none of its nets gets anywhere, and there are fewer than nets. */
    private static void checkCut(
            Case drawn,
            FlowCut cut,
            DisjointRoutes found,
            Map<Integer, Integer> net,
            Map<Integer, Integer> goal,
            Map<Integer, Map<Integer, Integer>> out,
            int seed) {
        long routed = cut.nets().stream().filter(n -> found.routes().get(n).isPresent()).count();
        assertThat(cut.vertices()).as("seed %d", seed).hasSize((int) routed);
        assertThat(cut.vertices().size()).isLessThan(cut.nets().size());
        for (int n = 0; n < drawn.trees().size(); n++) {
            if (found.routes().get(n).isEmpty()) {
                assertThat(cut.nets()).contains(n);
            }
        }
        Set<Integer> seen = new HashSet<>(cut.vertices());
        Deque<Integer> todo = new ArrayDeque<>();
        for (int n : cut.nets()) {
            for (int v : drawn.trees().get(n)) {
                todo.add(v);
            }
        }
        cutVertices += cut.vertices().size();
        while (!todo.isEmpty()) {
            int v = todo.remove();
            assertThat(goal).as("seed %d: the cut leaks", seed).doesNotContainKey(v);
            for (int w : out.getOrDefault(v, Map.of()).keySet()) {
                boolean free =
                        goal.containsKey(w) || !drawn.blocked().get(w) && !net.containsKey(w);
                if (free && seen.add(w)) {
                    todo.add(w);
                }
            }
        }
    }

    /** The fewest colours of closed vertices that let one route more through: by all subsets. */
    @Test
    void theFewestRemovalsAreThoseOfTryingAllSets() throws Exception {
        int[] bySize = new int[8];
        for (int seed = 0; seed < 300; seed++) {
            Case drawn = draw(seed);
            Random random = new Random(seed);
            int colours = 2 + random.nextInt(5);
            Map<Integer, Integer> colour = new HashMap<>();
            drawn.blocked().stream()
                    .forEach(
                            v ->
                                    colour.put(
                                            v,
                                            random.nextInt(8) == 0
                                                    ? OneMoreSearch.FORBIDDEN
                                                    : random.nextInt(colours)));
            DisjointRoutes found = without(drawn, drawn.blocked());
            if (found.served() == drawn.trees().size()) {
                continue;
            }
            Map<Integer, Integer> goals = new HashMap<>();
            drawn.goals().forEach(g -> goals.put(g.vertex(), -1));
            OneMoreSearch.Fewest fewest =
                    fewest(drawn, goals, found.routes(), found.cut().map(FlowCut::near), colour);
            OneMoreSearch.Fewest fromNets =
                    fewest(drawn, goals, found.routes(), Optional.empty(), colour);
            assertThat(fromNets.atLeast()).as("seed %d", seed).isEqualTo(fewest.atLeast());
            int least = OneMoreSearch.Fewest.NEVER;
            for (int set = 1; set < 1 << colours; set++) {
                if (Integer.bitCount(set) < least && helps(drawn, colour, set, found.served())) {
                    least = Integer.bitCount(set);
                }
            }
            assertThat(fewest.atLeast()).as("seed %d", seed).isEqualTo(least);
            bySize[least == OneMoreSearch.Fewest.NEVER ? 0 : least]++;
            if (fewest.occupants().isPresent()) {
                int set = fewest.occupants().get().stream().mapToInt(c -> 1 << c).sum();
                assertThat(fewest.occupants().get()).hasSize(least);
                assertThat(helps(drawn, colour, set, found.served())).as("seed %d", seed).isTrue();
            }
        }
        assertThat(bySize[0]).isPositive();
        assertThat(bySize[1]).isPositive();
        assertThat(bySize[2]).isPositive();
    }

    private static OneMoreSearch.Fewest fewest(
            Case drawn,
            Map<Integer, Integer> goals,
            List<Optional<VertexPath>> routes,
            Optional<NearSide> near,
            Map<Integer, Integer> colour) {
        return OneMoreSearch.find(
                drawn.fabric(),
                drawn.blocked(),
                sources(drawn),
                goals,
                routes,
                near,
                colour::get,
                1_000_000,
                Progress.NONE);
    }

    private static boolean helps(Case drawn, Map<Integer, Integer> colour, int set, int before) {
        BitSet left = new BitSet();
        drawn.blocked().stream()
                .filter(v -> colour.get(v) < 0 || (set >> colour.get(v) & 1) == 0)
                .forEach(left::set);
        return without(drawn, left).served() > before;
    }

    private static DisjointRoutes without(Case drawn, BitSet blocked) {
        return DisjointRouteFinder.find(
                drawn.fabric(),
                drawn.corner(),
                BlockedVertices.of(blocked),
                sources(drawn),
                drawn.goals(),
                Progress.NONE);
    }

    private static List<SearchSources> sources(Case drawn) {
        List<SearchSources> nets = new ArrayList<>();
        for (int n = 0; n < drawn.trees().size(); n++) {
            long[] costs = new long[drawn.starts().get(n).length];
            nets.add(new SearchSources(drawn.trees().get(n), costs));
        }
        return nets;
    }

    @AfterAll
    static void theCasesAreNotTrivial() {
        assertThat(served).isGreaterThan(200);
        assertThat(left).isGreaterThan(200);
        assertThat(cutVertices).isGreaterThan(50);
    }
}
