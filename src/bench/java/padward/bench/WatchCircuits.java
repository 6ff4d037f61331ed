package padward.bench;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Random;
import java.util.TreeMap;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.watch.circuit.Circuit;
import padward.watch.circuit.CircuitKinds;
import padward.watch.circuit.Signal;
import padward.watch.condition.ConditionNetNames;
import padward.watch.library.Count;
import padward.watch.library.Divide;
import padward.watch.library.Event;
import padward.watch.library.Recipe;
import padward.watch.library.Select;
import padward.watch.library.Signature;
import padward.watch.library.Trigger;
import padward.watch.place.WatchPlacer;
import padward.watch.place.WatchQuestion;
import padward.watch.place.WatchResult;

/**
 * How long watch circuits take, in processor time of this thread: each on drawn nets and free pads,
 * the median of several. The first argument is a design's file; a made one of a million wires when
 * there is none.
 */
public final class WatchCircuits {
    private static final int ROUNDS = Integer.getInteger("watch.rounds", 7);

    private WatchCircuits() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        double begin = nowMs();
        Design design = BenchDesigns.open(args);
        System.out.printf(
                "%,d vertices, %,d nets: %.0f ms%n",
                design.fabric().vertexCount(), design.nets().size(), nowMs() - begin);
        Map<String, List<Double>> times = new TreeMap<>();
        Map<String, Integer> cells = new TreeMap<>();
        for (int round = 0; round < ROUNDS; round++) {
            Random random = new Random(round);
            for (Map.Entry<String, Recipe> recipe : recipes(design, random).entrySet()) {
                Circuit circuit =
                        recipe.getValue().circuit(CircuitKinds.of(design.fabric().info()));
                List<Integer> pads = freePads(design, circuit.outputs().size(), random);
                double start = nowMs();
                WatchResult result =
                        WatchPlacer.place(
                                new WatchQuestion(design, circuit, pads), Progress.NONE);
                double ms = nowMs() - start;
                String name =
                        recipe.getKey()
                                + (result instanceof WatchResult.Placed ? "" : " (does not fit)");
                times.computeIfAbsent(name, n -> new ArrayList<>()).add(ms);
                cells.put(name, circuit.elements().size());
            }
        }
        times.forEach(
                (name, all) -> {
                    Collections.sort(all);
                    System.out.printf(
                            "  %-28s %3d cells: median %6.0f ms, most %6.0f ms (%d)%n",
                            name,
                            cells.get(name),
                            all.get(all.size() / 2),
                            all.get(all.size() - 1),
                            all.size());
                });
    }

    private static Map<String, Recipe> recipes(Design design, Random random) throws Exception {
        String clock =
                design.nets().stream().filter(Net::clock).findFirst().orElseThrow().name();
        List<String> nets =
                new ArrayList<>(
                        design.nets().stream().filter(n -> !n.clock()).map(Net::name).toList());
        // Nets that have to do with each other lie near each other.
        int first = random.nextInt(Math.max(1, nets.size() - 16));
        List<String> n = nets.subList(first, first + 16);
        ConditionNetNames names = ConditionNetNames.of(design);
        Event event = Event.of("t", n.get(0) + " && !" + n.get(1), names);
        Map<String, Recipe> all = new TreeMap<>();
        all.put("trigger", new Trigger(event, Optional.of(clock), true));
        all.put(
                "select of 8",
                new Select(
                        n.subList(0, 8),
                        List.of(
                                new Signal.Observed(n.get(8)),
                                new Signal.Observed(n.get(9)),
                                new Signal.Observed(n.get(10))),
                        Optional.of(clock)));
        all.put("divide by 16", new Divide(clock, 16, Optional.empty()));
        all.put("divide by 65536", new Divide(clock, 65_536, Optional.empty()));
        all.put("count of 4", new Count(n.subList(0, 4), clock, 1));
        all.put("signature of 8", new Signature(n.subList(0, 8), clock, event, Optional.empty()));
        return all;
    }

    private static List<Integer> freePads(Design design, int count, Random random) {
        List<Integer> free = new ArrayList<>();
        for (int p = 0; p < design.fabric().pads().size(); p++) {
            if (design.findPortOn(p).isEmpty()
                    && design.fabric().pads().get(p).directions().canDrive()) {
                free.add(p);
            }
        }
        Collections.shuffle(free, random);
        return free.subList(0, count);
    }

    private static double nowMs() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() / 1e6;
    }
}
