package padward.breakout.group;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.breakout.ask.DriverFit;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Corner;
import padward.fabric.Fabric;
import padward.route.cost.BlockedVertices;
import padward.route.flow.DisjointRouteFinder;
import padward.route.flow.DisjointRoutes;
import padward.route.flow.FlowCut;
import padward.route.flow.FlowGoal;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;

/**
 * The most nets of a group that can be routed together to pads that no port has, at the least price
 * of the pads and then the least sum of delays, as a flow ({@link DisjointRouteFinder}). Exact: any
 * net may take any of the pads, and a wire carries one net, which is just what a flow of vertices
 * of capacity one says (Hung, Jamal and Wilton, "Maximum Flow Algorithms for Maximum Observability
 * during FPGA Debug", FPT 2013, use it for trace buffers inside a device).
 *
 * @param paths by the position of the net its route, from a wire of the net to the pad
 * @param pads by the position of the net the position of its pad
 * @param bottleneck why not all nets have one; empty when all have
 */
record MostNets(
        List<Optional<VertexPath>> paths,
        Map<Integer, Integer> pads,
        Optional<Bus.Bottleneck> bottleneck) {
    /** More than the delays of a group can sum to, ps: the price of a pad comes first. */
    private static final int GRADE = 20_000_000;

    /** Copies the lists. */
    MostNets {
        paths = List.copyOf(paths);
        pads = Map.copyOf(pads);
    }

    /**
     * Finds them.
     *
     * @param alonePs delay of each net's free route to each pad alone, {@link Matching#NONE} where
     *     there is none; pads to which no net has one are not considered
     * @throws CancellationException when {@code progress} says so
     */
    static MostNets of(BusRequest request, int[][] alonePs, Progress progress) {
        Design design = request.design();
        Fabric fabric = design.fabric();
        List<SearchSources> sources = new ArrayList<>();
        for (Net net : request.nets()) {
            sources.add(SearchSources.along(fabric, net.route(), Corner.SLOW));
        }
        List<FlowGoal> goals = new ArrayList<>();
        Map<Integer, Integer> padAt = new HashMap<>();
        for (int pad = 0; pad < request.pads().size(); pad++) {
            int index = request.pads().get(pad);
            if (design.findPortOn(index).isEmpty() && isAnyOpen(alonePs, pad)) {
                int vertex = fabric.pads().get(index).vertex();
                int driver = driverPs(request, index);
                goals.add(new FlowGoal(vertex, request.rank(pad) * GRADE + driver));
                padAt.put(vertex, pad);
            }
        }
        DisjointRoutes found =
                DisjointRouteFinder.find(
                        fabric,
                        Corner.SLOW,
                        BlockedVertices.of(BusRouting.closed(design)),
                        sources,
                        goals,
                        progress);
        if (!found.proven()) {
            throw new CancellationException("stopped on request");
        }
        Map<Integer, Integer> pads = new HashMap<>();
        for (int net = 0; net < found.routes().size(); net++) {
            if (found.routes().get(net).isPresent()) {
                pads.put(net, padAt.get(found.routes().get(net).get().last()));
            }
        }
        return new MostNets(found.routes(), pads, found.cut().map(c -> bottleneck(request, c)));
    }

    private static boolean isAnyOpen(int[][] alonePs, int pad) {
        return Arrays.stream(alonePs).anyMatch(net -> net[pad] != Matching.NONE);
    }

    private static int driverPs(BusRequest request, int pad) {
        return DriverFit.of(request.design(), pad, request.driver())
                .setting()
                .map(s -> s.delay().slowPs())
                .orElse(0);
    }

    private static Bus.Bottleneck bottleneck(BusRequest request, FlowCut cut) {
        return new Bus.Bottleneck(
                cut.nets().stream().map(n -> request.nets().get(n)).toList(), cut.vertices());
    }

    /** Whether every route leads to a pad that is open to its net alone. */
    boolean isAllowed(int[][] alonePs) {
        return pads.entrySet().stream()
                .allMatch(e -> alonePs[e.getKey()][e.getValue()] != Matching.NONE);
    }
}
