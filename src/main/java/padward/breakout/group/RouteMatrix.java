package padward.breakout.group;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Question;
import padward.breakout.ask.WantedDriver;
import padward.design.Design;
import padward.design.Net;
import padward.route.search.VertexPath;

/**
 * Each net's route to each pad, alone, from which pads are chosen. A group can be routed repeatedly
 * with different choices pinned. Thread-safe.
 */
public final class RouteMatrix {
    /** On a larger fabric the flow, 13 bytes a vertex, is not kept. */
    private static final int MOST_KEPT = 4_000_000;

    private final BusRequest request;
    private final BusCosts costs;

    /** The flow that was found last, which the next one changes. */
    private Optional<GroupFlow> flow = Optional.empty();

    /**
     * What {@link #explained} has to look into; it holds a flow too, and is not kept afterwards.
     */
    private Optional<MostNets> unexplained = Optional.empty();

    /** What {@link #explained} has found, which does not depend on the routes. */
    private Optional<Bus.OneMore> oneMore = Optional.empty();

    private RouteMatrix(BusRequest request, BusCosts costs) {
        this.request = request;
        this.costs = costs;
    }

    /**
     * Searches the routes of all pairs, unless the aim does without. Nets that are already on one
     * of the pads are left out.
     *
     * @param nets the nets, in the order of the bits
     * @param pads indices of pads that may be taken, in their order on the board
     * @param ports whether ports may lose their pads
     * @throws CancellationException when {@code progress} says so
     */
    public static RouteMatrix of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            Progress progress) {
        return of(design, nets, pads, aim, ports, WantedDriver.NONE, progress);
    }

    /** The same without any search: what is asked of it is searched then. */
    public static RouteMatrix unsearched(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            WantedDriver driver) {
        BusRequest request = BusRequest.of(design, nets, pads, aim, ports, driver);
        return new RouteMatrix(request, new BusCosts(request));
    }

    /** The same, with something wanted of the pads' drivers. */
    public static RouteMatrix of(
            Design design,
            List<Net> nets,
            List<Integer> pads,
            Bus.Aim aim,
            Bus.Ports ports,
            WantedDriver driver,
            Progress progress) {
        RouteMatrix result = unsearched(design, nets, pads, aim, ports, driver);
        if (aim != Bus.Aim.MOST) {
            result.costs.freePs(progress);
        }
        return result;
    }

    /**
     * Calculates everything that {@link #answer} can return, so that later calls return at once.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public void complete(Progress progress) {
        costs.complete(progress);
    }

    /** The design. */
    public Design design() {
        return request.design();
    }

    /** The nets to be served. */
    public List<Net> nets() {
        return request.nets();
    }

    /** Indices of the pads that may be taken. */
    public List<Integer> pads() {
        return request.pads();
    }

    /** Whether a net can be routed to a pad, by their positions: it is free, or may be taken. */
    public boolean isRoutable(int net, int pad) {
        return request.isAllowed(pad) && answer(net, pad) instanceof Answer.FreeRoute;
    }

    /** The same as far as it is known, without a search. */
    public boolean isKnownRoutable(int net, int pad) {
        return request.isAllowed(pad)
                && known(net, pad).filter(a -> a instanceof Answer.FreeRoute).isPresent();
    }

    /** The question about a net and a pad, by their positions. */
    public Question question(int net, int pad) {
        return request.question(net, pad);
    }

    /** The quick answer for a net and a pad, if it is known without a search. */
    public Optional<Answer> known(int net, int pad) {
        return costs.known(net, pad);
    }

    /** The quick answer for a net and a pad, by their positions in the lists. */
    public Answer answer(int net, int pad) {
        return costs.answer(net, pad);
    }

    /**
     * Chooses pads, except for pinned nets, and routes the nets, without what lets one more be
     * served, which {@link #explained} adds.
     *
     * @param pinned positions of pads by positions of nets; a pair that is not open is not routed,
     *     pinned or not
     * @throws CancellationException when {@code progress} says so
     */
    public Bus routes(Map<Integer, Integer> pinned, Progress progress) {
        return routes(pinned, Optional.empty(), progress);
    }

    /**
     * The same for other nets and pads. What is known of pairs that stay is not searched again, and
     * the greatest flow is changed by what comes or goes. To be called once; this matrix can still
     * be read.
     *
     * @throws CancellationException when {@code progress} says so
     */
    public RouteMatrix changedTo(List<Net> nets, List<Integer> pads, Progress progress) {
        BusRequest other =
                BusRequest.of(
                        design(), nets, pads, request.aim(), request.ports(), request.driver());
        BusCosts known = costs.changedTo(other, progress);
        if (request.aim() != Bus.Aim.MOST) {
            known.freePs(progress);
        }
        RouteMatrix result = new RouteMatrix(other, known);
        synchronized (this) {
            result.flow = flow;
            flow = Optional.empty();
            unexplained = Optional.empty();
        }
        return result;
    }

    /** Whether it is about a design, and an aim, and what may be taken. */
    public boolean isAbout(Design design, Bus.Aim aim, Bus.Ports ports) {
        return request.design() == design && request.aim() == aim && request.ports() == ports;
    }

    /** The most nets, not proven to be the most when {@code progress} said to stop. */
    private synchronized MostNets mostNets(Progress progress) {
        Optional<GroupFlow> earlier = flow;
        flow = Optional.empty();
        MostNets most = MostNets.of(request, costs.usablePads(), earlier, progress);
        flow = most.flow().filter(f -> isKept(most));
        return most;
    }

    /** The same, to be explained; what was before a stop still is. */
    private synchronized MostNets mostToExplain(Progress progress) {
        MostNets most = mostNets(progress);
        if (oneMore.isEmpty() && !most.stopped()) {
            unexplained = Optional.of(most).filter(m -> m.bottleneck().isPresent());
        }
        return most;
    }

    private synchronized void forgetUnexplained() {
        unexplained = Optional.empty();
    }

    /** Whether it holds a flow, be it for the next group or to explain this one. */
    synchronized boolean holdsFlow() {
        return flow.isPresent() || unexplained.flatMap(MostNets::flow).isPresent();
    }

    private boolean isKept(MostNets most) {
        return !most.givesBack() && design().fabric().vertexCount() <= MOST_KEPT;
    }

    /**
     * The most nets, proven. Empty where the proof does not hold, because routes use what ports
     * would give back whose pads they do not take, or because a route cannot be used for a reason
     * beyond wires.
     */
    private Optional<Bus> most(MostNets most, Progress progress) {
        if (!most.exact() || !most.isAllowed(costs, progress)) {
            return Optional.empty();
        }
        Optional<String> why = most.bottleneck().map(b -> b.toText(design().fabric()));
        List<Bus.Left> left = new ArrayList<>(request.there());
        List<Optional<VertexPath>> paths = new ArrayList<>();
        BusRouting routing = new BusRouting(request);
        for (int i = 0; i < request.nets().size(); i++) {
            Optional<VertexPath> path = most.paths().get(i);
            if (path.isPresent()) {
                int pad = most.pads().get(i);
                int alone = costs.freePs(i, pad, progress);
                routing.add(request.nets().get(i), request.pads().get(pad), alone);
                paths.add(path);
            } else if (most.reaching().get(i)) {
                left.add(costs.left(i, why.orElseThrow()));
            } else {
                left.add(costs.left(i, progress));
            }
        }
        Bus bus = routing.along(paths, left);
        if (bus.lines().size() < paths.size()) {
            return Optional.empty();
        }
        return Optional.of(bus.proven(new Bus.Proof(most.bottleneck(), Optional.empty())));
    }

    /**
     * A group with what lets one more be served, where not all are and that is proven. When {@code
     * progress} says to stop, the group as it is.
     *
     * @param bus a group as this matrix routed it, or matched since
     */
    public synchronized Bus explained(Bus bus, Progress progress) {
        if (!bus.isUnexplained()) {
            return bus;
        }
        try {
            Optional<Bus.Bottleneck> why = bus.proof().flatMap(Bus.Proof::bottleneck);
            return oneMore(progress)
                    .map(more -> bus.proven(new Bus.Proof(why, Optional.of(more))))
                    .orElse(bus);
        } catch (CancellationException stopped) {
            return bus;
        }
    }

    private Optional<Bus.OneMore> oneMore(Progress progress) {
        if (oneMore.isEmpty() && unexplained.isPresent()) {
            oneMore = Optional.of(OneMoreNet.of(request, unexplained.get(), progress));
            unexplained = Optional.empty();
        }
        return oneMore;
    }

    private Bus.Bound bound(Bus bus, MostNets most, boolean stopped) {
        return new Bus.Bound(bus.lines().size(), most.atMost(), request.nets().size(), stopped);
    }

    /** As many as were found until a stop, over routes that can be used. */
    private Bus soFar(MostNets most) {
        BusRouting routing = new BusRouting(request);
        List<Bus.Left> left = new ArrayList<>(request.there());
        List<Optional<VertexPath>> paths = new ArrayList<>();
        String why =
                most.bottleneck()
                        .map(b -> b.toText(design().fabric()))
                        .orElse("the search was stopped before it was known whether it can be");
        for (int i = 0; i < request.nets().size(); i++) {
            if (most.paths().get(i).isPresent()) {
                // What its route would take alone is not known: zero is a bound all the same.
                routing.add(request.nets().get(i), request.pads().get(most.pads().get(i)), 0);
                paths.add(most.paths().get(i));
            } else {
                left.add(new Bus.Left(request.nets().get(i), why, false));
            }
        }
        Bus bus = routing.along(paths, left);
        return bus.unproven(bound(bus, most, true));
    }

    /**
     * How far a group routed from this matrix is from what is proven to be the best, as a sentence;
     * empty where that is not proven, or the group has it.
     *
     * @param bus a group for another aim, or changed since
     * @param lengthened whether its routes were lengthened to match
     * @throws CancellationException when {@code progress} says so
     */
    public Optional<String> distanceToBest(Bus bus, boolean lengthened, Progress progress) {
        // Without either, the group is the best itself, or the best is not proven.
        if (request.aim() == Bus.Aim.MOST && !lengthened) {
            return Optional.empty();
        }
        progress.check();
        return best(progress)
                .flatMap(
                        b ->
                                b.distance(
                                        bus.lines().size(),
                                        price(bus),
                                        bus.totalPs(),
                                        cause(lengthened)));
    }

    private String cause(boolean lengthened) {
        if (!lengthened) {
            return "this aim";
        }
        return request.aim() == Bus.Aim.MOST
                ? "matching the delays"
                : "this aim, with matching the delays,";
    }

    /** The most nets that can be served, where that is proven. */
    Optional<Bus.Best> best(Progress progress) {
        MostNets most = mostNets(progress);
        progress.check();
        if (!most.exact() || !most.isAllowed(costs, progress)) {
            return Optional.empty();
        }
        BusRouting routing = new BusRouting(request);
        List<Optional<VertexPath>> paths = new ArrayList<>();
        for (int i = 0; i < request.nets().size(); i++) {
            if (most.paths().get(i).isPresent()) {
                int pad = most.pads().get(i);
                int alone = costs.freePs(i, pad, progress);
                routing.add(request.nets().get(i), request.pads().get(pad), alone);
                paths.add(most.paths().get(i));
            }
        }
        Bus bus = routing.along(paths, List.of());
        return bus.lines().size() == paths.size()
                ? Optional.of(new Bus.Best(paths.size(), price(bus), bus.totalPs()))
                : Optional.empty();
    }

    private int price(Bus bus) {
        return bus.lines().stream()
                .mapToInt(l -> MostNets.steps(request, request.pads().indexOf(l.pad())))
                .sum();
    }

    /** All of a group, with a listener for the state after each round of negotiation. */
    Bus route(
            Map<Integer, Integer> pinned,
            Optional<Consumer<Bus.Round>> watcher,
            Progress progress) {
        return explained(routes(pinned, watcher, progress), progress);
    }

    private Bus routes(
            Map<Integer, Integer> pinned,
            Optional<Consumer<Bus.Round>> watcher,
            Progress progress) {
        if (request.aim() == Bus.Aim.MOST && pinned.isEmpty()) {
            MostNets most = mostToExplain(progress);
            progress.check();
            return provenOrChosen(most, watcher, progress);
        }
        return byAim(pinned, watcher, progress);
    }

    /** The most nets, proven; where the proof does not hold, what is chosen and a bound. */
    private Bus provenOrChosen(
            MostNets most, Optional<Consumer<Bus.Round>> watcher, Progress progress) {
        Optional<Bus> proven = most(most, progress);
        if (proven.isPresent()) {
            return proven.get();
        }
        forgetUnexplained();
        Bus chosen = byAim(Map.of(), watcher, progress);
        return chosen.unproven(bound(chosen, most, false));
    }

    /**
     * Chooses pads by the aim and routes the nets; when {@code progress} says to stop, it ends soon
     * with the nets that have routes so far and how many can have one at the most. For aims other
     * than the most nets there are none before the end.
     */
    public Bus routeOrSoFar(Progress progress) {
        return explained(routesOrSoFar(progress), progress);
    }

    /** The same without what lets one more be served, which {@link #explained} adds. */
    public Bus routesOrSoFar(Progress progress) {
        MostNets most = MostNets.none(request, costs.usablePads().size());
        try {
            if (request.aim() != Bus.Aim.MOST) {
                return byAim(Map.of(), Optional.empty(), progress);
            }
            most = mostToExplain(progress);
            return most.stopped() ? soFar(most) : provenOrChosen(most, Optional.empty(), progress);
        } catch (CancellationException stopped) {
            return soFar(most);
        }
    }

    private Bus byAim(
            Map<Integer, Integer> pinned,
            Optional<Consumer<Bus.Round>> watcher,
            Progress progress) {
        int[][] alonePs = costs.freePs(progress);
        for (int i = 0; i < alonePs.length; i++) {
            for (int j = 0; j < alonePs[i].length; j++) {
                boolean other = pinned.containsKey(i) && pinned.get(i) != j;
                boolean taken = !pinned.containsKey(i) && pinned.containsValue(j);
                alonePs[i][j] = other || taken ? Matching.NONE : alonePs[i][j];
            }
        }
        int[] choice = request.choose(alonePs);
        List<Bus.Left> left = new ArrayList<>(request.there());
        BusRouting routing = new BusRouting(request);
        for (int i = 0; i < choice.length; i++) {
            if (choice[i] == Matching.NONE) {
                left.add(costs.left(i, progress));
            } else {
                int pad = request.pads().get(choice[i]);
                routing.add(request.nets().get(i), pad, alonePs[i][choice[i]]);
            }
        }
        return routing.route(left, watcher, progress);
    }
}
