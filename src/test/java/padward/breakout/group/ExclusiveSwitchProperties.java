package padward.breakout.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.example.HandMade;

/**
 * Groups on tiny drawn fabrics, many of whose switches exclude each other, beside all choices of
 * all simple paths: what is called proven is the most, at the least sum of delays; where exclusive
 * switches keep a flow from being used, the bound is true, and what is proposed obeys them.
 */
class ExclusiveSwitchProperties {
    private static final int WIRES = 6;

    private int proven;
    private int unproven;
    private int below;
    private int turnedOn;

    @Test
    void provenIsTheBestOfAllChoicesAndTheRestIsBounded() {
        for (int seed = 0; seed < 400; seed++) {
            new Drawn(seed).check();
        }
        assertThat(proven).isGreaterThan(200);
        assertThat(unproven).isGreaterThan(10);
        assertThat(below).isPositive();
        assertThat(turnedOn).isGreaterThan(50);
    }

    /** One drawn fabric, its edges by the names of their ends. */
    private final class Drawn {
        private final int seed;
        private final int nets;
        private final Map<String, Map<String, Integer>> edges = new TreeMap<>();
        private final Map<String, Integer> groupOf = new TreeMap<>();
        private final Design design;
        private int most;
        private long leastPs;

        Drawn(int seed) {
            this.seed = seed;
            Random random = new Random(seed);
            nets = 2 + random.nextInt(2);
            HandMade made = new HandMade();
            made.wires(String.join(" ", IntStream.range(0, WIRES).mapToObj(i -> "w" + i).toList()));
            for (int i = 0; i < nets; i++) {
                made.site("s" + i, "", "q").pad("p" + i);
            }
            for (int i = 0; i < 8 + random.nextInt(12); i++) {
                String from = i < nets ? "s" + i + ".q" : "w" + random.nextInt(WIRES);
                String to = random.nextInt(3) == 0 ? "p" + random.nextInt(nets) : wire(random);
                if (!from.equals(to) && !edges.getOrDefault(from, Map.of()).containsKey(to)) {
                    int ps = 10 + random.nextInt(90);
                    made.chain(from + " " + to, ps, ps);
                    edges.computeIfAbsent(from, f -> new TreeMap<>()).put(to, ps);
                }
            }
            List<String> all = new ArrayList<>();
            edges.forEach((from, tos) -> tos.keySet().forEach(to -> all.add(from + " " + to)));
            for (int group = 0; group < 3 && all.size() > 2; group++) {
                Set<String> members = new LinkedHashSet<>();
                for (int i = 0; i < 2 + random.nextInt(2) && all.size() > 1; i++) {
                    members.add(all.remove(random.nextInt(all.size())));
                }
                for (String member : members) {
                    groupOf.put(member, group);
                }
                made.switchGroup("g" + group, members.toArray(new String[0]));
            }
            for (int i = 0; i < nets; i++) {
                made.cell("c" + i, "s" + i).net("n" + i, "c" + i + ".q", "", "s" + i + ".q");
            }
            design = made.design();
        }

        private String wire(Random random) {
            return "w" + random.nextInt(WIRES);
        }

        void check() {
            choose(0, 0, 0, new HashSet<>(), new TreeMap<>());
            List<Net> all =
                    IntStream.range(0, nets)
                            .mapToObj(i -> design.findNet("n" + i).orElseThrow())
                            .toList();
            List<Integer> pads = IntStream.range(0, nets).boxed().toList();
            Bus bus = Bus.of(design, all, pads, Bus.Aim.MOST, Bus.Ports.KEEP, Progress.NONE);
            String what = "seed " + seed;
            long ps = bus.lines().stream().mapToLong(l -> l.toPad().slowPs()).sum();
            assertThat(bus.lines().size()).as(what).isLessThanOrEqualTo(most);
            if (bus.proof().isPresent()) {
                proven++;
                assertThat(bus.lines()).as(what).hasSize(most);
                assertThat(ps).as(what).isEqualTo(leastPs);
            } else {
                unproven++;
                Bus.Bound bound = bus.bound().orElseThrow();
                assertThat(bound.stopped()).isFalse();
                assertThat(bound.served()).isEqualTo(bus.lines().size());
                assertThat(bound.atMost()).as(what).isGreaterThanOrEqualTo(most);
                below += bus.lines().size() < bound.atMost() ? 1 : 0;
            }
            checkObeys(bus, what);
        }

        private void checkObeys(Bus bus, String what) {
            Map<Integer, String> on = new TreeMap<>();
            for (Bus.Line line : bus.lines()) {
                List<String> names =
                        line.route().hops().stream()
                                .map(h -> design.fabric().vertexName(h.vertex()))
                                .map(n -> n.substring(n.indexOf('/') + 1))
                                .toList();
                for (int i = 1; i < names.size(); i++) {
                    String step = names.get(i - 1) + " " + names.get(i);
                    if (groupOf.containsKey(step)) {
                        turnedOn++;
                        assertThat(on.put(groupOf.get(step), step)).as(what).isNull();
                    }
                }
            }
        }

        /** All choices for the nets from one on. */
        private void choose(
                int net, int served, long ps, Set<String> used, Map<Integer, String> on) {
            if (net == nets) {
                if (served > most || served == most && ps < leastPs) {
                    most = served;
                    leastPs = ps;
                }
                return;
            }
            choose(net + 1, served, ps, used, on);
            walk("s" + net + ".q", net, served, ps, used, on);
        }

        private void walk(
                String at,
                int net,
                int served,
                long ps,
                Set<String> used,
                Map<Integer, String> on) {
            for (Map.Entry<String, Integer> step : edges.getOrDefault(at, Map.of()).entrySet()) {
                String to = step.getKey();
                Integer group = groupOf.get(at + " " + to);
                if (used.contains(to) || group != null && on.containsKey(group)) {
                    continue;
                }
                used.add(to);
                if (group != null) {
                    on.put(group, at);
                }
                long sum = ps + step.getValue();
                if (to.startsWith("p")) {
                    choose(net + 1, served + 1, sum, used, on);
                } else {
                    walk(to, net, served, sum, used, on);
                }
                used.remove(to);
                if (group != null) {
                    on.remove(group);
                }
            }
        }
    }
}
