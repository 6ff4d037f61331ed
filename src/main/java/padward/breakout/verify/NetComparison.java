package padward.breakout.verify;

import it.unimi.dsi.fastutil.longs.LongLinkedOpenHashSet;
import it.unimi.dsi.fastutil.longs.LongSet;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.delay.Delay;
import padward.timing.TreeDelays;

/** Compares nets of two designs, and counts what it found alike. Belongs to one thread. */
final class NetComparison {
    private final Design before;
    private final Design after;
    private long steps;
    private long delays;

    NetComparison(Design before, Design after) {
        this.before = before;
        this.after = after;
    }

    /** Steps compared and found alike, of nets that are alike. */
    long steps() {
        return steps;
    }

    /** Delays compared and found alike, of nets that are alike. */
    long delays() {
        return delays;
    }

    /** What differs; empty when nothing does. At least one net must be given. */
    Optional<NetDiff> compare(Optional<Net> one, Optional<Net> other) {
        LongSet stepsBefore = steps(one);
        LongSet stepsAfter = steps(other);
        List<NetDiff.Fact> facts = facts(one, other);
        Map<String, Optional<Delay>> endsBefore = one.map(n -> ends(before, n)).orElse(Map.of());
        Map<String, Optional<Delay>> endsAfter = other.map(n -> ends(after, n)).orElse(Map.of());
        if (one.isPresent()
                && other.isPresent()
                && stepsBefore.equals(stepsAfter)
                && facts.isEmpty()
                && endsBefore.equals(endsAfter)
                && haveSameDelays(one.get(), other.get())) {
            steps += stepsBefore.size();
            delays += 2L * one.get().route().size();
            return Optional.empty();
        }
        return Optional.of(
                new NetDiff(
                        one.or(() -> other).orElseThrow().name(),
                        DesignDiff.how(one, other),
                        only(stepsBefore, stepsAfter),
                        only(stepsAfter, stepsBefore),
                        facts,
                        endDelays(endsBefore, endsAfter)));
    }

    private static LongSet steps(Optional<Net> net) {
        LongSet result = new LongLinkedOpenHashSet();
        if (net.isPresent()) {
            RouteTree tree = net.get().route();
            for (int place = 1; place < tree.size(); place++) {
                long from = tree.vertex(tree.parent(place));
                result.add(from << Integer.SIZE | tree.vertex(place));
            }
        }
        return result;
    }

    private static List<NetDiff.Step> only(LongSet mine, LongSet others) {
        List<NetDiff.Step> result = new ArrayList<>();
        for (long step : mine) {
            if (!others.contains(step)) {
                result.add(new NetDiff.Step((int) (step >>> Integer.SIZE), (int) step));
            }
        }
        return result;
    }

    private List<NetDiff.Fact> facts(Optional<Net> one, Optional<Net> other) {
        List<NetDiff.Fact> facts = new ArrayList<>();
        add(
                "driver",
                one.map(n -> before.textOf(n.driver())).orElse(""),
                other.map(n -> after.textOf(n.driver())).orElse(""),
                facts);
        add("clock", clock(one), clock(other), facts);
        add("required", required(one), required(other), facts);
        for (String end : ends(one, other)) {
            add(
                    "required at " + end,
                    required(before, one, end),
                    required(after, other, end),
                    facts);
        }
        return facts;
    }

    /** The ends that have a required time of their own, in either design. */
    private Set<String> ends(Optional<Net> one, Optional<Net> other) {
        Set<String> result = new TreeSet<>();
        one.ifPresent(n -> n.requiredAtPs().keySet().forEach(t -> result.add(before.textOf(t))));
        other.ifPresent(n -> n.requiredAtPs().keySet().forEach(t -> result.add(after.textOf(t))));
        return result;
    }

    private static String required(Design design, Optional<Net> net, String end) {
        return net.map(Net::requiredAtPs).orElse(Map.of()).entrySet().stream()
                .filter(e -> design.textOf(e.getKey()).equals(end))
                .map(e -> e.getValue() + " ps")
                .findFirst()
                .orElse("");
    }

    private static void add(String what, String before, String after, List<NetDiff.Fact> facts) {
        if (!before.equals(after)) {
            facts.add(new NetDiff.Fact(what, before, after));
        }
    }

    private static String clock(Optional<Net> net) {
        return net.filter(Net::clock).map(n -> "yes").orElse("");
    }

    private static String required(Optional<Net> net) {
        OptionalInt ps = net.map(Net::requiredPs).orElse(OptionalInt.empty());
        return ps.isPresent() ? ps.getAsInt() + " ps" : "";
    }

    /** The delay to each end, in the net's order; none for an end that the wires do not reach. */
    private static Map<String, Optional<Delay>> ends(Design design, Net net) {
        TreeDelays delays = TreeDelays.of(design.fabric(), net.route());
        Map<String, Optional<Delay>> result = new LinkedHashMap<>();
        for (Terminal sink : net.sinks()) {
            int place = net.route().placeOf(design.vertexOf(sink));
            result.put(
                    design.textOf(sink),
                    place < 0 ? Optional.empty() : Optional.of(delays.at(place)));
        }
        return result;
    }

    private static List<NetDiff.EndDelay> endDelays(
            Map<String, Optional<Delay>> one, Map<String, Optional<Delay>> other) {
        Set<String> names = new LinkedHashSet<>(one.keySet());
        names.addAll(other.keySet());
        List<NetDiff.EndDelay> result = new ArrayList<>();
        for (String name : names) {
            boolean same =
                    one.containsKey(name)
                            && other.containsKey(name)
                            && one.get(name).equals(other.get(name));
            if (!same) {
                result.add(
                        new NetDiff.EndDelay(
                                name,
                                one.getOrDefault(name, Optional.empty()),
                                other.getOrDefault(name, Optional.empty())));
            }
        }
        return result;
    }

    /** Every vertex of one tree has in the other the delay that it has here. */
    private boolean haveSameDelays(Net one, Net other) {
        TreeDelays first = TreeDelays.of(before.fabric(), one.route());
        TreeDelays second = TreeDelays.of(after.fabric(), other.route());
        Map<Integer, Delay> byVertex = new HashMap<>();
        for (int place = 0; place < one.route().size(); place++) {
            byVertex.put(one.route().vertex(place), first.at(place));
        }
        for (int place = 0; place < other.route().size(); place++) {
            if (!second.at(place).equals(byVertex.get(other.route().vertex(place)))) {
                return false;
            }
        }
        return true;
    }
}
