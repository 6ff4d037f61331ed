package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSets;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CancellationException;
import java.util.stream.IntStream;
import padward.base.Lazy;
import padward.base.Progress;
import padward.breakout.ask.DriverFit;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.cost.BlockedVertices;
import padward.route.cost.FreeOnlyCost;
import padward.route.flow.DisjointRouteFinder;
import padward.route.flow.DisjointRoutes;
import padward.route.flow.FlowCut;
import padward.route.flow.FlowGoal;
import padward.route.flow.NearSide;
import padward.route.search.PathSearch;
import padward.route.search.PerimeterSearch;
import padward.route.search.SearchOutcome;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;
import padward.timing.OutputPath;
import padward.unblock.release.DisconnectedBranch;
import padward.unblock.release.PortBranch;

/**
 * The most nets of a group that can be routed together to the pads that may be taken, at the least
 * price of the pads and then the least sum of delays, as a flow ({@link DisjointRouteFinder}).
 * Exact: any net may take any of the pads, and a wire carries one net, which is just what a flow of
 * vertices of capacity one says (Hung, Jamal and Wilton, "Maximum Flow Algorithms for Maximum
 * Observability during FPGA Debug", FPT 2013, use it for trace buffers inside a device).
 *
 * <p>A pad that a port may lose is a goal with its price. The wires that its port gives back are
 * free only while the pad is taken, which a flow cannot say. So they are free at first, which
 * cannot serve too few nets nor cost too much; if a route uses some whose pad no route takes, that
 * pad is left out, and the flow is sought again. It is exact still when it is as good as the first.
 *
 * @param paths by the position of the net its route, from a wire of the net to the pad
 * @param pads by the position of the net the position of its pad
 * @param bottleneck why not all nets have one; empty when all have
 * @param goals positions of the pads that the flow could lead to
 * @param near what lies on the nets' side of it; empty also where it is not about these paths
 * @param reaching by the position of the net whether free routes lead from it to any of the pads
 * @param exact whether no choice serves more nets, nor as many for less
 * @param atMost how many nets any choice can serve at the most
 * @param stopped whether the search was stopped: the routes can be used, but need not be the most,
 *     and the bottleneck is not known
 * @param flow its flow, which can be changed; empty after a stop
 * @param givesBack whether ports would return wires with their pads: then a flow that is changed
 *     need not lead to the same routes as one from nothing
 */
record MostNets(
        List<Optional<VertexPath>> paths,
        Map<Integer, Integer> pads,
        Optional<Bus.Bottleneck> bottleneck,
        Set<Integer> goals,
        Optional<NearSide> near,
        List<Boolean> reaching,
        boolean exact,
        int atMost,
        boolean stopped,
        Optional<GroupFlow> flow,
        boolean givesBack) {
    /** More than the delays of a group can sum to, ps: the price of a pad comes first. */
    private static final int GRADE = 20_000_000;

    /** How many such steps a pad of each rank costs: more than five of those before. */
    private static final int[] STEPS = {0, 1, 6, 36};

    /** Copies the lists. */
    MostNets {
        paths = List.copyOf(paths);
        pads = Map.copyOf(pads);
        goals = Set.copyOf(goals);
        reaching = List.copyOf(reaching);
    }

    /**
     * Finds them, or as many as are found until {@code progress} says to stop.
     *
     * @param usable positions of the pads to which some net may come
     * @param earlier the flow of a group that was asked about before on the same design, whose pads
     *     gave nothing back; it is changed where that can be
     */
    static MostNets of(
            BusRequest request,
            Set<Integer> usable,
            Optional<GroupFlow> earlier,
            Progress progress) {
        try {
            return find(request, usable, earlier, Purpose.ANSWER, progress);
        } catch (CancellationException stopped) {
            return none(request, usable.size());
        }
    }

    /**
     * Whether so many nets can be served as is hoped for; why no more can is not looked for.
     *
     * @param usable positions of the pads to which the flow may lead; some net reaches each
     * @param flow the flow of a similar group on a similar design, which is changed
     */
    static MostNets tried(
            BusRequest request, Set<Integer> usable, Optional<GroupFlow> flow, Progress progress) {
        return find(request, usable, flow, Purpose.TRIAL, progress);
    }

    /** What the flow is sought for. */
    private enum Purpose {
        ANSWER,
        TRIAL
    }

    /** Nothing is known but how many pads may be taken. */
    static MostNets none(BusRequest request, int pads) {
        int nets = request.nets().size();
        return new MostNets(
                Collections.nCopies(nets, Optional.empty()),
                Map.of(),
                Optional.empty(),
                Set.of(),
                Optional.empty(),
                Collections.nCopies(nets, true),
                false,
                Math.min(nets, pads),
                true,
                Optional.empty(),
                false);
    }

    private static MostNets find(
            BusRequest request,
            Set<Integer> usable,
            Optional<GroupFlow> earlier,
            Purpose purpose,
            Progress progress) {
        Design design = request.design();
        Fabric fabric = design.fabric();
        List<SearchSources> sources = new ArrayList<>();
        for (Net net : request.nets()) {
            sources.add(SearchSources.along(fabric, net.route(), Corner.SLOW));
        }
        Map<Integer, Integer> padAt = new HashMap<>();
        Map<Integer, Set<Integer>> returned = new HashMap<>();
        Lazy<Reach> reach = new Lazy<>(() -> new Reach(design, sources));
        for (int pad : usable) {
            int vertex = fabric.pads().get(request.pads().get(pad)).vertex();
            Optional<DisconnectedBranch> branch = PortBranch.find(design, request.pads().get(pad));
            Set<Integer> back = branch.map(MostNets::own).orElse(Set.of());
            boolean used =
                    design.occupancy().findOccupant(vertex).isPresent() && !back.contains(vertex);
            // What a pad that nobody reaches gives back would only lead the flow astray.
            boolean reached = purpose == Purpose.TRIAL || back.isEmpty();
            if (!used && (reached || reach.get().leadsTo(vertex, back, progress))) {
                padAt.put(vertex, pad);
                branch.ifPresent(b -> returned.put(vertex, back));
            }
        }
        boolean givesBack = !returned.isEmpty();
        List<Net> nets = request.nets();
        GroupFlow.Members members = members(request, sources, padAt, returned);
        // A trial only counts; what a changed flow leads to may differ where pads give something.
        Optional<GroupFlow> known = earlier.filter(e -> !givesBack || purpose == Purpose.TRIAL);
        known.ifPresent(k -> k.changeTo(members, progress));
        GroupFlow group = known.orElseGet(() -> new GroupFlow(fabric, members, progress));
        DisjointRoutes first = group.routes(nets);
        Optional<FlowCut> cut = purpose == Purpose.TRIAL ? Optional.empty() : group.cut(nets);
        boolean isOpen = purpose == Purpose.TRIAL || !first.proven();
        List<Boolean> reaching = nets.stream().map(n -> isOpen || !group.isCutOff(n)).toList();
        DisjointRoutes found = first;
        boolean stopped = !first.proven();
        for (Set<Integer> unpaid = unpaid(found, returned);
                !unpaid.isEmpty();
                unpaid = unpaid(found, returned)) {
            padAt.keySet().removeAll(unpaid);
            returned.keySet().removeAll(unpaid);
            group.changeTo(members(request, sources, padAt, returned), progress);
            found = group.routes(nets);
            stopped |= !found.proven();
        }
        Map<Integer, Integer> pads = new HashMap<>();
        for (int net = 0; net < found.routes().size(); net++) {
            if (found.routes().get(net).isPresent()) {
                pads.put(net, padAt.get(found.routes().get(net).get().last()));
            }
        }
        boolean isFirst = found == first;
        boolean same = found.served() == first.served() && found.cost() == first.cost();
        // A stop may also have kept the reason from being found.
        stopped |= purpose == Purpose.ANSWER && first.served() < nets.size() && cut.isEmpty();
        return new MostNets(
                found.routes(),
                pads,
                cut.map(c -> bottleneck(request, c)),
                Set.copyOf(padAt.values()),
                cut.filter(c -> isFirst).map(FlowCut::near),
                reaching,
                same && !stopped,
                first.mostServed(),
                stopped,
                stopped ? Optional.empty() : Optional.of(group),
                givesBack);
    }

    /** Whether any of the nets alone has a free route to a pad. */
    private static final class Reach {
        private final PerimeterSearch search;
        private final SearchSources all;
        private final BlockedVertices closed;

        Reach(Design design, List<SearchSources> nets) {
            search = new PerimeterSearch(new PathSearch(design.fabric()));
            closed = BlockedVertices.of(MostNets.closed(design, List.of()));
            int[] vertices =
                    nets.stream()
                            .flatMapToInt(n -> IntStream.range(0, n.size()).map(n::vertex))
                            .toArray();
            all = new SearchSources(vertices, new long[vertices.length]);
        }

        boolean leadsTo(int pad, Set<Integer> returned, Progress progress) {
            IntOpenHashSet free = new IntOpenHashSet(returned);
            free.add(pad);
            FreeOnlyCost model = new FreeOnlyCost(closed.with(IntSets.EMPTY_SET, free));
            SearchOutcome outcome = search.find(all, pad, Corner.SLOW, model, progress);
            if (outcome instanceof SearchOutcome.Cancelled) {
                throw new CancellationException("stopped on request");
            }
            return outcome instanceof SearchOutcome.Found;
        }
    }

    private static Set<Integer> own(DisconnectedBranch branch) {
        Set<Integer> result = new HashSet<>();
        branch.allVertices().forEach(result::add);
        return result;
    }

    /** What no route may enter, with what ports give back free. */
    static BitSet closed(Design design, Collection<Set<Integer>> returned) {
        BitSet closed = BusRouting.closed(design);
        for (Set<Integer> vertices : returned) {
            vertices.stream()
                    .filter(v -> design.fabric().kind(v) != VertexKind.PAD)
                    .forEach(closed::clear);
        }
        design.tiedPins().forEach(closed::set);
        return closed;
    }

    /** What a port gives back with its pad; nothing where no port has it. */
    static Set<Integer> returned(Design design, int pad) {
        return PortBranch.find(design, pad).map(MostNets::own).orElse(Set.of());
    }

    /**
     * What the flow of all nets is of.
     *
     * @param padAt by the vertices of the pads that may be taken their positions
     * @param returned by the vertices of pads what is free once they are taken
     */
    private static GroupFlow.Members members(
            BusRequest request,
            List<SearchSources> sources,
            Map<Integer, Integer> padAt,
            Map<Integer, Set<Integer>> returned) {
        List<FlowGoal> goals = new ArrayList<>();
        new TreeMap<>(padAt)
                .forEach(
                        (vertex, pad) -> {
                            int driver = driverPs(request, request.pads().get(pad));
                            int price = steps(request, pad) * GRADE;
                            goals.add(new FlowGoal(vertex, price + driver));
                        });
        return new GroupFlow.Members(
                request.nets(), sources, goals, closed(request.design(), returned.values()));
    }

    /** The pads that no route takes, although some uses what only their ports give back. */
    private static Set<Integer> unpaid(DisjointRoutes found, Map<Integer, Set<Integer>> returned) {
        Set<Integer> used = new HashSet<>();
        Set<Integer> taken = new HashSet<>();
        for (Optional<VertexPath> route : found.routes()) {
            if (route.isPresent()) {
                for (int i = 1; i < route.get().size(); i++) {
                    used.add(route.get().vertex(i));
                }
                taken.add(route.get().last());
            }
        }
        Set<Integer> result = new HashSet<>();
        returned.forEach(
                (pad, vertices) -> {
                    if (!taken.contains(pad) && vertices.stream().anyMatch(used::contains)) {
                        result.add(pad);
                    }
                });
        return result;
    }

    /** How many steps of price a pad costs, by its position. */
    static int steps(BusRequest request, int pad) {
        return STEPS[request.rank(pad)];
    }

    /** From the pad's driver to the pin, as in a route's delay. */
    private static int driverPs(BusRequest request, int pad) {
        Design design = request.design();
        return OutputPath.toPin(
                        design.fabric().pads().get(pad),
                        DriverFit.of(design, pad, request.driver()).setting())
                .slowPs();
    }

    private static Bus.Bottleneck bottleneck(BusRequest request, FlowCut cut) {
        List<Net> nets = cut.nets().stream().map(n -> request.nets().get(n)).toList();
        Optional<CutPlace> place = CutPlace.of(request.design(), nets, cut);
        return new Bus.Bottleneck(
                nets,
                cut.vertices(),
                place.map(CutPlace::tiles),
                place.map(CutPlace::users).orElse(List.of()));
    }

    /** Whether every route leads to a pad that is open to its net alone. */
    boolean isAllowed(BusCosts costs, Progress progress) {
        return pads.entrySet().stream()
                .allMatch(e -> costs.freePs(e.getKey(), e.getValue(), progress) != Matching.NONE);
    }
}
