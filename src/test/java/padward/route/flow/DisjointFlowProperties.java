package padward.route.flow;

import static org.assertj.core.api.Assertions.assertThat;

import it.unimi.dsi.fastutil.ints.Int2IntMaps;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.HashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.route.cost.BlockedVertices;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/**
 * Nets and goals that come and go in drawn order: after each change the flow serves as many nets as
 * JGraphT's flows on a graph built from nothing, at the same cost. Also when it was stopped before.
 */
class DisjointFlowProperties {
    private int changes;
    private int stops;
    private int served;
    private int left;
    private int betweenBounds;
    private int cutOff;
    private int competing;
    private int opened;
    private int better;

    @Test
    void changesLeadToWhatJGraphTFindsFromNothing() throws Exception {
        check(0, 150);
    }

    @Test
    @Tag("slow")
    void manyMoreChangesDo() throws Exception {
        check(150, 2_000);
    }

    private void check(int first, int end) throws Exception {
        for (int seed = first; seed < end; seed++) {
            new Sequence(DisjointRouteProperties.draw(seed), seed).run();
        }
        assertThat(changes).isGreaterThan(500);
        assertThat(stops).isGreaterThan(50);
        assertThat(served).isGreaterThan(500);
        assertThat(left).isGreaterThan(500);
        assertThat(betweenBounds).isGreaterThan(20);
        assertThat(cutOff).isGreaterThan(100);
        assertThat(competing).isGreaterThan(100);
        assertThat(opened).isGreaterThan(200);
        assertThat(better).isGreaterThan(20);
    }

    /** One drawn order of changes. */
    private final class Sequence {
        private final DisjointRouteProperties.Case drawn;
        private final Fabric fabric;
        private final Random random;
        private final String what;
        private final BitSet blocked;
        private final DisjointFlow flow;
        private final TreeMap<Integer, Integer> numberOf = new TreeMap<>();
        private final TreeSet<Integer> nets = new TreeSet<>();
        private final TreeSet<Integer> goals = new TreeSet<>();

        /** How often the flow may still ask whether to stop before it is. */
        private int polls = Integer.MAX_VALUE;

        Sequence(DisjointRouteProperties.Case drawn, int seed) {
            this.drawn = drawn;
            this.fabric = drawn.fabric();
            this.random = new Random(seed);
            this.what = "seed " + seed;
            blocked = (BitSet) drawn.blocked().clone();
            IntArrayList trees = new IntArrayList();
            drawn.trees().forEach(t -> trees.addElements(trees.size(), t));
            drawn.goals().forEach(g -> trees.add(g.vertex()));
            trees.forEach((int v) -> blocked.set(v));
            flow =
                    new DisjointFlow(
                            fabric,
                            drawn.corner(),
                            BlockedVertices.of(drawn.blocked()),
                            trees,
                            List.of(),
                            Int2IntMaps.EMPTY_MAP,
                            Progress.NONE);
        }

        void run() {
            for (int i = 0; i < 14; i++) {
                boolean stop = random.nextInt(5) == 0;
                if (stop) {
                    polls = random.nextInt(2);
                    flow.askToStop(stopping());
                }
                change();
                changes++;
                if (flow.isStopped()) {
                    stops++;
                    checkBounds();
                    flow.askToStop(Progress.NONE);
                    flow.finish();
                }
                flow.askToStop(Progress.NONE);
                compare();
            }
        }

        private Progress stopping() {
            return new Progress() {
                @Override
                public void report(double done, String doing) {}

                @Override
                public boolean cancelled() {
                    return polls-- <= 0;
                }
            };
        }

        private void change() {
            int net = random.nextInt(drawn.trees().size());
            int goal = random.nextInt(drawn.goals().size());
            int kind = random.nextInt(15);
            if (kind < 5) {
                if (!nets.remove(net)) {
                    nets.add(net);
                    add(net);
                } else {
                    flow.removeNet(numberOf.get(net));
                }
            } else if (kind < 11) {
                FlowGoal is = drawn.goals().get(goal);
                if (!goals.remove(goal)) {
                    goals.add(goal);
                    flow.addGoal(is);
                } else {
                    flow.removeGoal(is.vertex());
                }
            } else if (kind > 11) {
                open();
            } else {
                IntArrayList more = new IntArrayList();
                for (int number : numberOf.values()) {
                    flow.route(number).ifPresent(r -> more.add(r.vertex(r.size() / 2)));
                }
                more.add(random.nextInt(fabric.vertexCount()));
                more.removeIf(v -> blocked.get(v));
                more.forEach((int v) -> blocked.set(v));
                flow.close(more);
            }
        }

        /** Opens some of what is closed, but for trees and goals; some may be open already. */
        private void open() {
            BitSet others = (BitSet) blocked.clone();
            drawn.trees().forEach(t -> Arrays.stream(t).forEach(others::clear));
            drawn.goals().forEach(g -> others.clear(g.vertex()));
            int[] closed = others.stream().toArray();
            IntArrayList some = new IntArrayList();
            for (int i = 0; closed.length > 0 && i < 6; i++) {
                some.add(closed[random.nextInt(closed.length)]);
            }
            int before = flow.served();
            long cost = total();
            flow.open(some);
            some.forEach((int v) -> blocked.clear(v));
            opened += some.size();
            better += flow.served() > before || total() < cost ? 1 : 0;
        }

        private long total() {
            return nets.stream().mapToLong(n -> flow.cost(numberOf.get(n))).sum();
        }

        private void add(int net) {
            if (numberOf.containsKey(net)) {
                flow.addAgain(numberOf.get(net));
                return;
            }
            long[] costs = new long[drawn.trees().get(net).length];
            for (int i = 0; i < costs.length; i++) {
                costs[i] = drawn.starts().get(net)[i];
            }
            SearchSources sources = new SearchSources(drawn.trees().get(net), costs);
            numberOf.put(net, flow.addNet(sources));
        }

        private FlowReferee.Judgement judged() {
            List<int[]> trees = new ArrayList<>();
            List<int[]> starts = new ArrayList<>();
            nets.forEach(n -> trees.add(drawn.trees().get(n)));
            nets.forEach(n -> starts.add(drawn.starts().get(n)));
            List<FlowGoal> open = goals.stream().map(drawn.goals()::get).toList();
            return FlowReferee.judge(fabric, drawn.corner(), blocked, trees, starts, open);
        }

        private void compare() {
            FlowReferee.Judgement judged = judged();
            assertThat(flow.served()).as(what + ": number").isEqualTo(judged.most());
            assertThat(flow.mostServed()).as(what).isEqualTo(judged.most());
            assertThat(walk()).as(what + ": cost").isEqualTo(judged.cost());
            served += judged.most();
            left += nets.size() - judged.most();
            assertThat(flow.cut().isPresent()).isEqualTo(judged.most() < nets.size());
            compareReach();
        }

        /** A net that gets no route to any goal even alone is cut off, and no other. */
        private void compareReach() {
            List<FlowGoal> open = goals.stream().map(drawn.goals()::get).toList();
            for (int net : nets) {
                boolean isCutOff = flow.isCutOff(numberOf.get(net));
                if (flow.route(numberOf.get(net)).isPresent()) {
                    assertThat(isCutOff).as(what).isFalse();
                } else {
                    int alone =
                            FlowReferee.judge(
                                            fabric,
                                            drawn.corner(),
                                            blocked,
                                            List.of(drawn.trees().get(net)),
                                            List.of(drawn.starts().get(net)),
                                            open)
                                    .most();
                    assertThat(isCutOff).as(what + ": net " + net).isEqualTo(alone == 0);
                    cutOff += isCutOff ? 1 : 0;
                    competing += isCutOff ? 0 : 1;
                }
            }
        }

        private void checkBounds() {
            FlowReferee.Judgement judged = judged();
            walk();
            assertThat(flow.served()).as(what).isLessThanOrEqualTo(judged.most());
            assertThat(flow.mostServed()).as(what).isGreaterThanOrEqualTo(judged.most());
            betweenBounds += flow.served() < flow.mostServed() ? 1 : 0;
        }

        /** That the routes are disjoint routes; what they cost. */
        private long walk() {
            Set<Integer> used = new HashSet<>();
            long cost = 0;
            for (int net : nets) {
                int number = numberOf.get(net);
                if (flow.route(number).isEmpty()) {
                    continue;
                }
                VertexPath route = flow.route(number).get();
                long own = 0;
                for (int i = 0; i < drawn.trees().get(net).length; i++) {
                    if (drawn.trees().get(net)[i] == route.first()) {
                        own += 1 + drawn.starts().get(net)[i];
                    }
                }
                assertThat(own).as(what).isPositive();
                own--;
                for (int i = 1; i < route.size(); i++) {
                    int vertex = route.vertex(i);
                    assertThat(used.add(vertex)).as(what).isTrue();
                    assertThat(i < route.size() - 1 && blocked.get(vertex)).as(what).isFalse();
                    own += step(route.vertex(i - 1), vertex);
                }
                own +=
                        goals.stream()
                                .map(drawn.goals()::get)
                                .filter(g -> g.vertex() == route.last())
                                .findFirst()
                                .orElseThrow()
                                .cost();
                assertThat(flow.cost(number)).isEqualTo(own);
                cost += own;
            }
            return cost;
        }

        private int step(int tail, int head) {
            int least = Integer.MAX_VALUE;
            EdgeCursor edges = fabric.edgesOut();
            edges.reset(tail);
            while (edges.next()) {
                if (edges.other() == head) {
                    least = Math.min(least, edges.delayPs(drawn.corner()));
                }
            }
            assertThat(least).as(what + ": no edge").isNotEqualTo(Integer.MAX_VALUE);
            return least;
        }
    }
}
