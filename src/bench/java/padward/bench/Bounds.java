package padward.bench;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.PriorityQueue;
import java.util.Random;
import padward.base.Progress;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.FreeOnlyCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;

/**
 * How good the lower bound of questions is: the vertices that they settle with it, against those
 * with the true least delays to the pad on the empty fabric, which no bound that does not know the
 * occupancy can better. The true ones are worked out here, by a search backwards from each pad with
 * a plain heap. Also prints what the bound by distance alone settles. Fails where more is settled
 * than is promised, or where two of the routes found differ in cost.
 *
 * <p>Argument: as for {@link Blocked}.
 */
public final class Bounds {
    private static final int PADS = 20;
    private static final int QUESTIONS_A_PAD = 10;
    private static final int MOST_TRIED = 2_000;
    private static final double PROMISED_RATIO = 3;

    private Bounds() {}

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        Design design = Blocked.open(args.length > 0 ? args[0] : Blocked.EXAMPLE);
        Fabric fabric = design.fabric();
        FabricIndex index = FabricIndex.of(fabric);
        PathSearch search = new PathSearch(fabric);
        BitSet used = design.occupancy().toBits();
        CostModel free = new FreeOnlyCost(used);
        Random random = new Random(6);
        List<long[]> settled = new ArrayList<>();
        for (int tried = 0; tried < MOST_TRIED && settled.size() < PADS * QUESTIONS_A_PAD; tried++) {
            int pad = fabric.pads().get(random.nextInt(fabric.pads().size())).vertex();
            if (used.get(pad)) {
                continue;
            }
            int[] truth = leastDelays(fabric, pad);
            LowerBound[] bounds = {
                index.bestBound(pad, Corner.SLOW, Progress.NONE),
                v -> truth[v] == Integer.MAX_VALUE ? CostModel.CLOSED : truth[v],
                index.distanceRate(Corner.SLOW, Progress.NONE).towards(fabric, pad)
            };
            for (int i = 0; i < QUESTIONS_A_PAD; i++) {
                Net net = design.nets().get(random.nextInt(design.nets().size()));
                ask(search, SearchSources.along(fabric, net.route(), Corner.SLOW), pad, free, bounds)
                        .ifPresent(settled::add);
            }
        }
        System.exit(report(fabric, settled));
    }

    /** What is settled with each of some bounds, for a question that has a free route. */
    private static Optional<long[]> ask(
            PathSearch search, SearchSources from, int pad, CostModel free, LowerBound[] bounds) {
        long[] result = new long[bounds.length];
        long cost = CostModel.CLOSED;
        for (int i = 0; i < bounds.length; i++) {
            SearchOutcome outcome =
                    search.run(from, pad, Corner.SLOW, free, bounds[i], Progress.NONE);
            long found = CostModel.CLOSED;
            if (outcome instanceof SearchOutcome.Found route) {
                found = route.cost();
                result[i] = route.settled();
            }
            if (i > 0 && found != cost) {
                throw new IllegalStateException("costs differ: " + cost + ", " + found);
            }
            cost = found;
        }
        return cost == CostModel.CLOSED ? Optional.empty() : Optional.of(result);
    }

    /** Dijkstra's search backwards over the whole empty fabric, picoseconds. */
    private static int[] leastDelays(Fabric fabric, int goal) {
        int[] result = new int[fabric.vertexCount()];
        Arrays.fill(result, Integer.MAX_VALUE);
        EdgeCursor edges = fabric.edgesIn();
        PriorityQueue<long[]> queue =
                new PriorityQueue<>((one, other) -> Long.compare(one[0], other[0]));
        result[goal] = 0;
        queue.add(new long[] {0, goal});
        while (!queue.isEmpty()) {
            long[] next = queue.poll();
            int vertex = (int) next[1];
            if (next[0] != result[vertex]) {
                continue;
            }
            edges.reset(vertex);
            while (edges.next()) {
                int sum = result[vertex] + edges.delayPs(Corner.SLOW);
                if (sum < result[edges.other()]) {
                    result[edges.other()] = sum;
                    queue.add(new long[] {sum, edges.other()});
                }
            }
        }
        return result;
    }

    private static int report(Fabric fabric, List<long[]> settled) {
        double[] ratios =
                settled.stream().mapToDouble(s -> (double) s[0] / s[1]).sorted().toArray();
        long[] sums = new long[3];
        settled.forEach(s -> Arrays.setAll(sums, i -> sums[i] + s[i]));
        System.out.printf(
                "%,d vertices; %d questions with a free route; vertices settled in all:%n",
                fabric.vertexCount(), settled.size());
        System.out.printf(
                "  with the program's bound %,d, with the true least delays %,d, by distance %,d%n",
                sums[0], sums[1], sums[2]);
        System.out.printf(
                "  program's against true, a question: half below %.2f, nine in ten below %.2f, most %.2f%n",
                ratios[ratios.length / 2],
                ratios[ratios.length * 9 / 10],
                ratios[ratios.length - 1]);
        double ratio = (double) sums[0] / sums[1];
        Promises promises = new Promises();
        promises.atMost("settled in all, to the true least delays", ratio, PROMISED_RATIO);
        return promises.report();
    }
}
