package padward.route.negotiate;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import it.unimi.dsi.fastutil.longs.LongArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import padward.base.Progress;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.bound.DistanceRate;
import padward.route.bound.FabricIndex;
import padward.route.bound.LowerBound;
import padward.route.cost.BlockedVertices;
import padward.route.cost.CongestionCost;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.cost.SwitchRuleCost;
import padward.route.search.PathSearch;
import padward.route.search.RouteFinder;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.route.search.SwitchGroupSearch;

/**
 * Routes many nets at once by negotiated congestion: McMurchie and Ebeling, "PathFinder: a
 * negotiation-based performance-driven router for FPGAs", FPGA'95. Nets may overlap at first; a
 * vertex that several nets use grows more expensive round by round, (b + h) · p, until all but the
 * nets that need it most are routed elsewhere. The paper gives no numbers for the growth of h and
 * p; those here are ours.
 *
 * <p>Unlike the paper, after the first round only nets that overlap are ripped up, which leaves the
 * others alone; and the delay term is left out (A = 0 for all nets).
 *
 * <p>Deterministic. One object belongs to one thread; it costs 22 bytes a vertex.
 */
public final class NegotiatedRouter {
    private static final int PRESENT_FACTOR_START = 1;
    private static final double PRESENT_GROWTH = 1.6;
    private static final int PRESENT_FACTOR_MOST = 10_000;

    /** What a vertex that had better be avoided costs more, in delays of a tile. */
    private static final int AVOIDED_STEPS = 24;

    /** Largest p: a shared vertex is then a last resort already. */
    private static final int MOST_TIMES = 10_000;

    private final Fabric fabric;
    private final BitSet closed;
    private final PathSearch search;
    private final RouteFinder finder;
    private final SwitchUse switches;
    private final int[] users;
    private final int[] history;

    /** h and p of the paper for each vertex, for the present history and users. */
    private final int[] pricePs;

    private final int[] times;

    private final FabricIndex index;

    /** What one more user adds to h: the delay of a tile. Set when the routing begins. */
    private int historyStep = 1;

    private final Optional<Consumer<RoutingRound>> listener;
    private double presentFactor;
    private BitSet avoided = new BitSet();
    private BitSet shared = new BitSet();

    /**
     * @param fabric the fabric
     * @param closed vertices that no net may enter, unless it ends there; not to be changed
     */
    public NegotiatedRouter(Fabric fabric, BitSet closed) {
        this(fabric, closed, List.of(), Optional.empty());
    }

    /**
     * The same router, which reports the state after each round; the last report is how it ended.
     *
     * @param others trees whose switches stay on; what their groups exclude may not be used
     * @param listener is called after each round, on the routing thread
     */
    public NegotiatedRouter(
            Fabric fabric,
            BitSet closed,
            Collection<RouteTree> others,
            Optional<Consumer<RoutingRound>> listener) {
        this.listener = listener;
        this.switches = new SwitchUse(fabric, SwitchUse.excludedBy(fabric, others));
        this.finder = SwitchGroupSearch.over(fabric, this::search);
        this.fabric = fabric;
        this.closed = closed;
        this.index = FabricIndex.of(fabric);
        this.search = new PathSearch(fabric);
        this.users = new int[fabric.vertexCount()];
        this.history = new int[fabric.vertexCount()];
        this.pricePs = new int[fabric.vertexCount()];
        this.times = new int[fabric.vertexCount()];
        Arrays.fill(times, 1);
    }

    /** The same router, to which some vertices cost much more than others from the beginning. */
    public NegotiatedRouter avoiding(BitSet vertices) {
        avoided = vertices;
        return this;
    }

    /** The same router, for which vertices may be of two nets, such as pads in both directions. */
    public NegotiatedRouter sharing(BitSet vertices) {
        shared = vertices;
        return this;
    }

    /**
     * Routes all jobs.
     *
     * @param rounds most rounds to negotiate
     * @return a tree for each job; empty for those that have no route of their own
     * @throws CancellationException when {@code progress} says so
     */
    public List<Optional<RouteTree>> route(List<RouteJob> jobs, int rounds, Progress progress) {
        List<Optional<RouteTree>> trees = new ArrayList<>();
        jobs.forEach(j -> trees.add(Optional.empty()));
        DistanceRate rate = index.distanceRate(Corner.SLOW, progress);
        historyStep = (int) Math.max(1, rate.tiles() == 0 ? 1 : rate.delayPs() / rate.tiles());
        presentFactor = PRESENT_FACTOR_START;
        for (int v = avoided.nextSetBit(0); v >= 0; v = avoided.nextSetBit(v + 1)) {
            history[v] += AVOIDED_STEPS * historyStep;
            setPrice(v);
        }
        for (int round = 0; round < rounds; round++) {
            List<Integer> routed = new ArrayList<>();
            for (int i = 0; i < jobs.size(); i++) {
                if (round == 0 || overlaps(trees.get(i))) {
                    reroute(jobs, trees, i, progress);
                    routed.add(i);
                }
            }
            progress.report(
                    (double) (round + 1) / rounds,
                    "round " + (round + 1) + ", " + routed.size() + " nets");
            boolean anyShared = raiseHistory(trees);
            if (!anyShared) {
                report(round + 1, routed, trees);
                return trees;
            }
            presentFactor = Math.min(PRESENT_FACTOR_MOST, presentFactor * PRESENT_GROWTH);
            for (int v = 0; v < pricePs.length; v++) {
                setPrice(v);
            }
            report(round + 1, routed, trees);
        }
        report(rounds + 1, resolveOverlaps(jobs, trees, progress), trees);
        return trees;
    }

    /** Reports a round; nothing is done when there is no listener. */
    private void report(int round, List<Integer> routed, List<Optional<RouteTree>> trees) {
        listener.ifPresent(
                w -> {
                    List<RoutingRound.PricedVertex> priced = new ArrayList<>();
                    for (int v = 0; v < history.length; v++) {
                        if (history[v] > 0 || users[v] > 1) {
                            priced.add(
                                    new RoutingRound.PricedVertex(
                                            v, users[v], history[v], times[v]));
                        }
                    }
                    w.accept(new RoutingRound(round, routed, trees, priced));
                });
    }

    private void reroute(
            List<RouteJob> jobs, List<Optional<RouteTree>> trees, int i, Progress progress) {
        trees.get(i).ifPresent(t -> use(t, -1));
        Optional<RouteTree> tree = tree(jobs.get(i), progress);
        tree.ifPresent(t -> use(t, 1));
        trees.set(i, tree);
    }

    /**
     * What is still shared when the rounds are over is routed net by net, first come first served.
     * Returns the jobs that were routed again.
     */
    private List<Integer> resolveOverlaps(
            List<RouteJob> jobs, List<Optional<RouteTree>> trees, Progress progress) {
        List<Integer> routed = new ArrayList<>();
        presentFactor = Double.POSITIVE_INFINITY;
        for (int i = 0; i < jobs.size(); i++) {
            if (overlaps(trees.get(i))) {
                reroute(jobs, trees, i, progress);
                routed.add(i);
            }
        }
        return routed;
    }

    private Optional<RouteTree> tree(RouteJob job, Progress progress) {
        RouteTree.Builder tree = new RouteTree.Builder(job.root());
        IntArrayList onTree = new IntArrayList();
        LongArrayList costs = new LongArrayList();
        for (int place = 0; place < job.base().size(); place++) {
            int vertex = job.base().vertex(place);
            if (place > 0) {
                tree.add(job.base().vertex(job.base().parent(place)), vertex);
            }
            onTree.add(vertex);
            costs.add(job.baseCost(place));
        }
        for (int i = 0; i < job.sinkCount(); i++) {
            int goal = job.sink(i);
            if (tree.contains(goal)) {
                continue;
            }
            // Searches ask after some thousand vertices, and most are shorter than that.
            progress.check();
            SearchOutcome outcome =
                    finder.find(
                            new SearchSources(onTree.toIntArray(), costs.toLongArray()),
                            goal,
                            Corner.SLOW,
                            switches.isNeeded() ? obeying(costs(goal), tree) : costs(goal),
                            progress);
            if (outcome instanceof SearchOutcome.Cancelled) {
                throw new CancellationException("stopped on request");
            }
            if (!(outcome instanceof SearchOutcome.Found found)) {
                return Optional.empty();
            }
            for (int p = 1; p < found.path().size(); p++) {
                tree.add(found.path().vertex(p - 1), found.path().vertex(p));
                onTree.add(found.path().vertex(p));
                costs.add(0);
            }
        }
        return Optional.of(tree.build());
    }

    private SearchOutcome search(
            SearchSources sources, int goal, Corner corner, CostModel model, Progress progress) {
        LowerBound bound = index.bestBound(goal, corner, progress);
        return search.run(sources, goal, corner, model, bound, progress);
    }

    private CostModel obeying(CostModel model, RouteTree.Builder tree) {
        return new SwitchRuleCost(model, switches.prices(tree.build(), historyStep, presentFactor));
    }

    /**
     * What a net pays on its route to a goal. At the end, when overlaps are resolved, what has a
     * user is closed.
     */
    private CostModel costs(int goal) {
        if (Double.isInfinite(presentFactor)) {
            CustomCost unused =
                    (from, to, delayPs) ->
                            users[to] > 0 || closed.get(to) && to != goal
                                    ? CostModel.CLOSED
                                    : (long) delayPs + history[to];
            return unused;
        }
        IntSet goalIsOpen = closed.get(goal) ? IntSets.singleton(goal) : IntSets.EMPTY_SET;
        return new CongestionCost(new BlockedVertices(closed, goalIsOpen), pricePs, times);
    }

    /** Sets h and p of the paper for a vertex. Both are whole numbers here. */
    private void setPrice(int vertex) {
        int others = users[vertex];
        pricePs[vertex] = others == 0 ? history[vertex] : history[vertex] + historyStep;
        times[vertex] = 1 + (int) Math.round(Math.min(MOST_TIMES, others * presentFactor));
    }

    private void use(RouteTree tree, int change) {
        for (int place = 0; place < tree.size(); place++) {
            int vertex = tree.vertex(place);
            if (!shared.get(vertex)) {
                users[vertex] += change;
                setPrice(vertex);
            }
        }
        switches.use(tree, change);
    }

    private boolean overlaps(Optional<RouteTree> tree) {
        if (tree.isEmpty()) {
            return false;
        }
        if (switches.overlaps(tree.get())) {
            return true;
        }
        for (int place = 0; place < tree.get().size(); place++) {
            if (users[tree.get().vertex(place)] > 1) {
                return true;
            }
        }
        return false;
    }

    /** Raises the history cost of each shared vertex; whether there was any. */
    private boolean raiseHistory(List<Optional<RouteTree>> trees) {
        BitSet raised = new BitSet();
        for (Optional<RouteTree> tree : trees) {
            for (int place = 0; tree.isPresent() && place < tree.get().size(); place++) {
                int vertex = tree.get().vertex(place);
                if (users[vertex] > 1 && !raised.get(vertex)) {
                    raised.set(vertex);
                    history[vertex] += historyStep * (users[vertex] - 1);
                }
            }
        }
        return switches.raiseHistory(historyStep) || !raised.isEmpty();
    }
}
