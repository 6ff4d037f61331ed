package padward.bench;

import it.unimi.dsi.fastutil.ints.Int2IntMap;
import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.fabric.EdgeCursor;
import padward.fabric.pattern.PatternFabric;
import padward.route.cost.CostModel;
import padward.route.queue.BucketQueue;
import padward.route.search.OneToAll;
import padward.route.search.PathSearch;
import padward.route.search.SearchSources;
import padward.synth.FabricMaker;

/**
 * A simulation, in one thread, of a one-to-all search that many machines share: the chip is cut into
 * equal rectangles of tiles, one for each machine. In each round every machine searches its own
 * rectangle as far as that leads, then tells its neighbours the costs of wires that it reached
 * there (Malewicz et al., "Pregel", SIGMOD 2010). Prints how many rounds there are, how many costs
 * are told, how often a vertex is settled, and how many times as fast it could be at best: all
 * settled by one machine, over what the slowest machine of each round settles. Costs are those of a
 * search by one.
 *
 * <p>Argument: the number of wires; 1000000 when there is none.
 */
public final class RegionSweeps {
    private static final int[] SIDES = {1, 2, 4, 8, 16, 32};
    private static final int UNSEEN = Integer.MAX_VALUE;

    private final PatternFabric fabric;
    private final EdgeCursor edges;
    private final int side;
    private final int[] cost;
    private final BucketQueue queue = new BucketQueue();

    /** What each machine has been told and has not looked at. */
    private final IntArrayList[] told;

    private int rounds;
    private long messages;
    private long settled;
    private long slowest;

    private RegionSweeps(PatternFabric fabric, int side) {
        this.fabric = fabric;
        this.side = side;
        edges = fabric.edgesOut();
        cost = new int[fabric.vertexCount()];
        Arrays.fill(cost, UNSEEN);
        told = new IntArrayList[side * side];
        Arrays.setAll(told, i -> new IntArrayList());
    }

    /** Runs everything. */
    public static void main(String[] args) throws Exception {
        Locale.setDefault(Locale.ROOT);
        int wires = args.length == 0 ? 1_000_000 : Integer.parseInt(args[0]);
        PatternFabric fabric = PatternFabric.compile(FabricMaker.make(wires, 5));
        int source = fabric.pads().get(0).vertex();
        OneToAll all =
                new PathSearch(fabric)
                        .sweep(
                                SearchSources.at(source),
                                Terrain.CORNER,
                                CostModel.EMPTY_FABRIC,
                                Progress.NONE);
        System.out.printf(
                "%,d vertices, %d x %d tiles%n",
                fabric.vertexCount(), fabric.columns(), fabric.rows());
        System.out.printf(
                "%8s %7s %12s %14s %12s%n",
                "machines", "rounds", "costs told", "times settled", "times fast");
        for (int side : SIDES) {
            RegionSweeps sweep = new RegionSweeps(fabric, side);
            sweep.run(source);
            long reached = 0;
            for (int v = 0; v < sweep.cost.length; v++) {
                long known = sweep.cost[v] == UNSEEN ? CostModel.CLOSED : sweep.cost[v];
                if (known != all.cost(v)) {
                    throw new IllegalStateException("cost of " + fabric.vertexName(v));
                }
                reached += sweep.cost[v] == UNSEEN ? 0 : 1;
            }
            System.out.printf(
                    "%8d %7d %,12d %14.2f %12.1f%n",
                    side * side,
                    sweep.rounds,
                    sweep.messages,
                    (double) sweep.settled / reached,
                    (double) reached / sweep.slowest);
        }
    }

    private int region(int vertex) {
        int tile = fabric.tile(vertex);
        int x = fabric.column(tile) * side / fabric.columns();
        int y = fabric.row(tile) * side / fabric.rows();
        return y * side + x;
    }

    private void run(int source) {
        cost[source] = 0;
        told[region(source)].add(source);
        while (IntStream.range(0, told.length).anyMatch(r -> !told[r].isEmpty())) {
            rounds++;
            IntArrayList[] now = told.clone();
            Arrays.setAll(told, i -> new IntArrayList());
            long most = 0;
            List<Int2IntMap> across = new ArrayList<>();
            for (int r = 0; r < now.length; r++) {
                if (!now[r].isEmpty()) {
                    Int2IntMap own = new Int2IntOpenHashMap();
                    most = Math.max(most, search(r, now[r], own));
                    across.add(own);
                }
            }
            // Nobody hears of anything before the round is over.
            for (Int2IntMap messagesOfOne : across) {
                messages += messagesOfOne.size();
                for (Int2IntMap.Entry message : messagesOfOne.int2IntEntrySet()) {
                    int vertex = message.getIntKey();
                    if (message.getIntValue() < cost[vertex]) {
                        cost[vertex] = message.getIntValue();
                        told[region(vertex)].add(vertex);
                    }
                }
            }
            slowest += most;
        }
    }

    /**
     * Settles what one machine can, and adds the wires of others that it reached. It remembers what
     * it has told of them in this round only.
     */
    private long search(int region, IntArrayList begins, Int2IntMap across) {
        int least = begins.intStream().map(v -> cost[v]).min().orElseThrow();
        queue.clear(least);
        begins.forEach(v -> queue.push(v, cost[v]));
        long count = 0;
        while (!queue.isEmpty()) {
            int vertex = queue.pop();
            int sofar = cost[vertex];
            if (sofar < queue.current()) {
                // It was queued again at less.
                continue;
            }
            count++;
            edges.reset(vertex);
            while (edges.next()) {
                int other = edges.other();
                int sum = sofar + edges.delayPs(Terrain.CORNER);
                if (region(other) != region) {
                    across.mergeInt(other, sum, Math::min);
                } else if (sum < cost[other]) {
                    cost[other] = sum;
                    queue.push(other, sum);
                }
            }
        }
        settled += count;
        return count;
    }
}
