package padward.route.flow;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/** Finds the greatest number of routes that share no vertex, and among these the least cost. */
public final class DisjointRouteFinder {
    private DisjointRouteFinder() {}

    /**
     * Finds them, as a {@link DisjointFlow} to which the nets are added one by one.
     *
     * @param corner the corner whose delays count
     * @param blocked vertices that no route may enter; the nets' own need not be among them, and
     *     goals count as free
     * @param nets for each net where its route may start, and what is spent until there; no vertex
     *     twice
     * @param goals where routes may end; no route goes on from there
     * @param progress when it says so, the best so far is returned, not proven
     */
    public static DisjointRoutes find(
            Fabric fabric,
            Corner corner,
            BlockedVertices blocked,
            List<SearchSources> nets,
            List<FlowGoal> goals,
            Progress progress) {
        DisjointFlow flow = start(fabric, corner, blocked, nets, goals, progress);
        List<Integer> all = IntStream.range(0, nets.size()).boxed().toList();
        DisjointRoutes found = routes(flow, all);
        return new DisjointRoutes(
                found.routes(), found.cost(), found.mostServed(), found.proven(), cut(flow, all));
    }

    /**
     * A flow with all nets, by their positions, for more changes.
     *
     * @see #find
     */
    public static DisjointFlow start(
            Fabric fabric,
            Corner corner,
            BlockedVertices blocked,
            List<SearchSources> nets,
            List<FlowGoal> goals,
            Progress progress) {
        IntArrayList trees = new IntArrayList();
        for (SearchSources net : nets) {
            for (int i = 0; i < net.size(); i++) {
                trees.add(net.vertex(i));
            }
        }
        DisjointFlow flow =
                new DisjointFlow(
                        fabric,
                        corner,
                        blocked,
                        trees,
                        goals,
                        GoalPrices.of(fabric, corner, nets, goals, progress),
                        progress);
        for (SearchSources net : nets) {
            flow.addNet(net);
            progress.report((double) flow.nets() / nets.size(), flow.served() + " nets routed");
        }
        flow.finish();
        return flow;
    }

    /**
     * The routes of a flow, by the positions of its nets in a list, without the cut.
     *
     * @param nets numbers of all nets of the flow
     */
    public static DisjointRoutes routes(DisjointFlow flow, List<Integer> nets) {
        List<Optional<VertexPath>> routes = new ArrayList<>();
        long cost = 0;
        for (int net : nets) {
            routes.add(flow.route(net));
            cost += flow.cost(net);
        }
        return new DisjointRoutes(
                routes, cost, flow.mostServed(), !flow.isStopped(), Optional.empty());
    }

    /**
     * Why not all nets of a flow have a route, by their positions in a list; empty when all have,
     * or when the search was stopped.
     *
     * @param nets numbers of all nets of the flow
     */
    public static Optional<FlowCut> cut(DisjointFlow flow, List<Integer> nets) {
        return flow.cut()
                .map(
                        c ->
                                new FlowCut(
                                        c.nets().stream().map(nets::indexOf).sorted().toList(),
                                        c.vertices(),
                                        c.near()));
    }
}
