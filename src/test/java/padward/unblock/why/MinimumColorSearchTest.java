package padward.unblock.why;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.base.Progress;
import padward.unblock.UsedGraph;
import padward.unblock.release.ReleaseRules;

/**
 * The search for the fewest occupants by itself, against all sets of nets of drawn graphs: each is
 * tried by walking over what it leaves. Explanations have other means as well, and so hide what
 * this search finds.
 */
class MinimumColorSearchTest {
    private static final SearchLimits WIDE = new SearchLimits(1_000_000, 60_000, 6, 0);

    private static MinimumColorSearch.Result run(UsedGraph graph, SearchLimits limits) {
        return run(graph.ask("s", "t"), limits, Progress.NONE);
    }

    private static MinimumColorSearch.Result run(
            UsedGraph.Asked asked, SearchLimits limits, Progress progress) {
        ReleaseRules rules =
                new ReleaseRules(asked.context(), asked.context().enableOccupant(asked.pad()));
        return MinimumColorSearch.run(
                asked.context(), rules, asked.starts(), asked.pad().vertex(), limits, progress);
    }

    private static List<Set<String>> names(UsedGraph graph, List<int[]> sets) {
        UsedGraph.Asked asked = graph.ask("s", "t");
        return sets.stream()
                .map(
                        set ->
                                Arrays.stream(set)
                                        .mapToObj(
                                                o ->
                                                        asked.context()
                                                                .design()
                                                                .occupancy()
                                                                .occupant(o)
                                                                .name())
                                        .collect(Collectors.toSet()))
                .toList();
    }

    private static UsedGraph graphOf(String edges) {
        return UsedGraph.of(edges).withLockedCells();
    }

    /** A graph as drawn, and the net at each of its used vertices. */
    private record Drawn(Set<String> edges, Map<String, String> netOf) {
        UsedGraph graph() {
            UsedGraph result = graphOf(String.join(" ", edges));
            for (String net : new TreeSet<>(netOf.values())) {
                result.used(
                        net,
                        netOf.keySet().stream()
                                .filter(v -> netOf.get(v).equals(net))
                                .sorted()
                                .toArray(String[]::new));
            }
            return result;
        }

        boolean isOpenWithout(Set<String> removed) {
            Deque<String> open = new ArrayDeque<>(List.of("s"));
            Set<String> seen = new HashSet<>(open);
            while (!open.isEmpty()) {
                String from = open.remove() + ">";
                for (String edge : edges) {
                    String to = edge.substring(edge.indexOf('>') + 1);
                    boolean free = !netOf.containsKey(to) || removed.contains(netOf.get(to));
                    if (edge.startsWith(from) && free && seen.add(to)) {
                        open.add(to);
                    }
                }
            }
            return seen.contains("t");
        }

        /** All sets of nets that open a route, of which none is within another. */
        List<Set<String>> least() {
            List<String> nets = List.copyOf(new TreeSet<>(netOf.values()));
            List<Set<String>> opening = new ArrayList<>();
            for (int bits = 0; bits < 1 << nets.size(); bits++) {
                Set<String> removed = new HashSet<>();
                for (int i = 0; i < nets.size(); i++) {
                    if ((bits >> i & 1) == 1) {
                        removed.add(nets.get(i));
                    }
                }
                if (isOpenWithout(removed)) {
                    opening.add(removed);
                }
            }
            return opening.stream()
                    .filter(
                            one ->
                                    opening.stream()
                                            .noneMatch(o -> !o.equals(one) && one.containsAll(o)))
                    .toList();
        }
    }

    private static Drawn drawn(Random random) {
        int count = 4 + random.nextInt(6);
        Set<String> edges = new TreeSet<>();
        for (int v = 0; v < count; v++) {
            edges.add((v < 2 || random.nextInt(3) == 0 ? "s" : "v" + random.nextInt(v)) + ">v" + v);
            if (v > count - 3 || random.nextInt(4) == 0) {
                edges.add("v" + v + ">t");
            }
            int to = random.nextInt(count);
            if (to != v) {
                edges.add("v" + v + ">v" + to);
            }
        }
        Map<String, String> netOf = new HashMap<>();
        int nets = 2 + random.nextInt(4);
        for (int v = 0; v < count; v++) {
            if (random.nextInt(5) > 0) {
                netOf.put("v" + v, "n" + random.nextInt(nets));
            }
        }
        return new Drawn(edges, netOf);
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void findsTheLeastSetsOfDrawnGraphs(long seed) {
        Random random = new Random(seed);
        int several = 0;
        int beyond = 0;
        for (int i = 0; i < 150; i++) {
            Drawn drawn = drawn(random);
            List<Set<String>> least = drawn.least();
            int fewest = least.stream().mapToInt(Set::size).min().orElseThrow();
            if (fewest == 0) {
                continue;
            }
            UsedGraph graph = drawn.graph();
            MinimumColorSearch.Result result = run(graph, WIDE);
            List<Set<String>> found = names(graph, result.sets());
            assertThat(result.certain()).as("%s", drawn).isTrue();
            assertThat(result.atLeast()).as("%s", drawn).isEqualTo(fewest);
            assertThat(found).as("%s", drawn).doesNotHaveDuplicates().isSubsetOf(least);
            assertThat(found.stream().map(Set::size).toList()).isSorted();
            // All as few, and all with one more.
            assertThat(found)
                    .as("%s", drawn)
                    .containsAll(least.stream().filter(s -> s.size() <= fewest + 1).toList());
            if (result.exhausted()) {
                assertThat(found).as("%s", drawn).containsExactlyInAnyOrderElementsOf(least);
            }
            if (least.size() == 1) {
                assertThat(result.exhausted()).as("%s", drawn).isTrue();
            }
            several += least.size() > 1 ? 1 : 0;
            beyond += result.exhausted() ? 0 : 1;
        }
        assertThat(several).as("with several sets").isGreaterThan(30);
        assertThat(beyond).as("with sets that nobody asks for").isPositive();
    }

    /** Each of 14 rungs can be passed over one of two nets of its own: 2^14 sets are as few. */
    private static UsedGraph ladder() {
        int rungs = 14;
        UsedGraph graph = graphOf(rungs(rungs));
        for (int rung = 1; rung <= rungs; rung++) {
            graph.used("na" + rung, "a" + rung).used("nb" + rung, "b" + rung);
        }
        return graph;
    }

    @Test
    void asManySetsAsAnyoneReadsAreEnough() {
        MinimumColorSearch.Result result = run(ladder(), WIDE);
        assertThat(result.sets()).hasSize(64);
        assertThat(result.certain()).isTrue();
        assertThat(result.exhausted()).isFalse();
        assertThat(result.atLeast()).isEqualTo(14);
    }

    /** Rungs 1 and 2 share net n1, 2 and 3 net n2, and so on. */
    private static UsedGraph tangled() {
        UsedGraph graph = graphOf(rungs(12));
        for (int net = 0; net < 13; net++) {
            List<String> wires = new ArrayList<>();
            if (net > 0) {
                wires.add("b" + net);
            }
            if (net < 12) {
                wires.add("a" + (net + 1));
            }
            graph.used("n" + net, wires.toArray(String[]::new));
        }
        return graph;
    }

    private static String rungs(int count) {
        List<String> edges = new ArrayList<>();
        for (int rung = 1; rung <= count; rung++) {
            String from = rung == 1 ? "s" : "r" + (rung - 1);
            String to = rung == count ? "t" : "r" + rung;
            for (String side : List.of("a", "b")) {
                edges.add(from + ">" + side + rung);
                edges.add(side + rung + ">" + to);
            }
        }
        return String.join(" ", edges);
    }

    /** Every other net is enough. */
    @Test
    void netsThatServeTwiceAreTakenOnce() {
        MinimumColorSearch.Result result = run(tangled(), WIDE);
        assertThat(result.atLeast()).isEqualTo(6);
        assertThat(names(tangled(), result.sets()).get(0))
                .isEqualTo(Set.of("n1", "n3", "n5", "n7", "n9", "n11"));
    }

    @Test
    void anOnlySetIsKnownToBeTheOnlyOne() {
        UsedGraph graph =
                graphOf("s>a a>b b>t a>c c>t").used("n1", "a").used("n2", "b").used("n3", "c");
        MinimumColorSearch.Result two = run(graph, WIDE);
        assertThat(names(graph, two.sets()))
                .containsExactlyInAnyOrder(Set.of("n1", "n2"), Set.of("n1", "n3"));
        assertThat(two.exhausted()).isTrue();
        UsedGraph one = graphOf("s>a a>b b>t a>c c>t").used("n1", "a").used("n2", "b", "c");
        MinimumColorSearch.Result only = run(one, WIDE);
        assertThat(names(one, only.sets())).containsExactly(Set.of("n1", "n2"));
        assertThat(only.exhausted()).isTrue();
    }

    /**
     * Rungs of two wires, on which nets are drawn: thousands of labels before the first arrives.
     */
    private static UsedGraph mixed() {
        int rungs = 48;
        Random random = new Random(2);
        Map<String, List<String>> wires = new HashMap<>();
        for (int rung = 1; rung <= rungs; rung++) {
            for (String side : List.of("a", "b")) {
                wires.computeIfAbsent("n" + random.nextInt(30), n -> new ArrayList<>())
                        .add(side + rung);
            }
        }
        UsedGraph graph = graphOf(rungs(rungs));
        wires.forEach((net, its) -> graph.used(net, its.toArray(String[]::new)));
        return graph;
    }

    @Test
    void aSearchThatEndsAtItsLimitHasABoundNevertheless() {
        MinimumColorSearch.Result whole = run(mixed(), WIDE);
        assertThat(whole.certain()).isTrue();
        for (SearchLimits limits :
                List.of(
                        new SearchLimits(100, 60_000, 6, 0),
                        new SearchLimits(1_000_000, 0, 6, 0))) {
            MinimumColorSearch.Result cut = run(mixed(), limits);
            assertThat(cut.sets()).isEmpty();
            assertThat(cut.certain()).isFalse();
            assertThat(cut.exhausted()).isFalse();
            assertThat(cut.atLeast()).isPositive().isLessThanOrEqualTo(whole.atLeast());
        }
    }

    @Test
    void aSearchThatIsStoppedSaysSo() {
        Progress stopped =
                new Progress() {
                    @Override
                    public void report(double fraction, String message) {}

                    @Override
                    public boolean cancelled() {
                        return true;
                    }
                };
        assertThatThrownBy(() -> run(ladder().ask("s", "t"), WIDE, stopped))
                .isInstanceOf(CancellationException.class);
    }
}
