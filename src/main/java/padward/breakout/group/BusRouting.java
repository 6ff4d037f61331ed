package padward.breakout.group;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import padward.base.Progress;
import padward.breakout.ask.DriverFit;
import padward.breakout.ask.Question;
import padward.breakout.ask.Route;
import padward.breakout.ask.RouteBuilder;
import padward.breakout.ask.WantedDriver;
import padward.change.Edit;
import padward.change.Outcome;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;
import padward.route.negotiate.RoutingRound;
import padward.route.search.SwitchGroupSearch;
import padward.route.search.VertexPath;
import padward.unblock.release.QuestionContext;

/** Routes a group together, once each net has its pad. */
final class BusRouting {
    /** Rounds of negotiation. */
    private static final int ROUNDS = 60;

    private final List<Edit> edits = new ArrayList<>();
    private final List<Net> nets = new ArrayList<>();
    private final List<Integer> pads = new ArrayList<>();
    private final List<Integer> alonePs = new ArrayList<>();
    private boolean removedBefore;
    private final Design design;
    private final WantedDriver driver;

    /** For a request on whose design only the ports on the pads have to be disconnected. */
    BusRouting(BusRequest request) {
        this.design = request.design();
        this.driver = request.driver();
    }

    /** Adds edits that are applied before the routing. */
    void addFirst(List<Edit> removals) {
        edits.addAll(removals);
        removedBefore = true;
    }

    /**
     * Adds a net, and disconnects the port on its pad, unless a net that nothing removes would lose
     * its source by that.
     *
     * @param alone delay of its route alone, slow corner, ps
     */
    void add(Net net, int pad, int alone) {
        nets.add(net);
        pads.add(pad);
        alonePs.add(alone);
        // Also a port whose net no longer exists: the new port needs the pad.
        design.findPortOn(pad).ifPresent(this::disconnect);
    }

    private void disconnect(Port port) {
        Edit go = new Edit.DisconnectPort(port.name());
        List<Edit> implied =
                design.netsAtPort(port.id()).stream()
                        .filter(n -> n.driver().equals(new Terminal.PortEnd(port.id())))
                        .<Edit>map(n -> new Edit.RemoveNet(n.name()))
                        .toList();
        if (!edits.contains(go) && edits.containsAll(implied)) {
            edits.removeAll(implied);
            edits.add(0, go);
        }
    }

    /**
     * Routes all nets. Nets that find no route together with the others are left.
     *
     * @param left nets that were left before
     * @param watcher receives the state after each round of negotiation
     */
    Bus route(List<Bus.Left> left, Optional<Consumer<Bus.Round>> watcher, Progress progress) {
        Design start = Outcome.apply(design, edits);
        List<RouteJob> jobs = new ArrayList<>();
        for (int i = 0; i < nets.size(); i++) {
            int goal = start.fabric().pads().get(pads.get(i)).vertex();
            RouteTree own = start.findNet(nets.get(i).name()).orElseThrow().route();
            jobs.add(RouteJob.from(start.fabric(), own, Corner.SLOW, goal));
        }
        Optional<Consumer<RoutingRound>> rounds =
                watcher.map(w -> round -> w.accept(new Bus.Round(nets, round)));
        List<Optional<RouteTree>> trees =
                new NegotiatedRouter(start.fabric(), closed(start), trees(start), rounds)
                        .route(jobs, ROUNDS, progress);
        List<Optional<VertexPath>> paths = new ArrayList<>();
        for (int i = 0; i < nets.size(); i++) {
            int index = i;
            paths.add(trees.get(i).map(t -> newPart(start, index, t)));
        }
        return along(paths, left);
    }

    /**
     * The group over given routes. Nets whose route cannot be used after those before are left.
     *
     * @param paths for each net its new part, from a wire of the net to the pad
     * @param left nets that were left before
     */
    Bus along(List<Optional<VertexPath>> paths, List<Bus.Left> left) {
        Design start = Outcome.apply(design, edits);
        List<Bus.Line> lines = new ArrayList<>();
        List<Bus.Left> allLeft = new ArrayList<>(left);
        List<Edit> allEdits = new ArrayList<>(edits);
        Design now = start;
        long alone = 0;
        for (int i = 0; i < nets.size(); i++) {
            int pad = pads.get(i);
            Optional<Bus.Line> line = Optional.empty();
            if (paths.get(i).isPresent()) {
                line =
                        line(
                                now,
                                nets.get(i),
                                pad,
                                driver,
                                DriverFit.standing(design, pad),
                                paths.get(i).get());
            }
            if (line.isEmpty()) {
                String name = start.fabric().pads().get(pad).name();
                String reason = "no route to pad " + name + " together with the others";
                allLeft.add(new Bus.Left(nets.get(i), reason, true));
                continue;
            }
            lines.add(line.get());
            alone += alonePs.get(i);
            List<Edit> out = line.get().breakOut(now);
            now = Outcome.apply(now, out);
            allEdits.addAll(out);
        }
        return new Bus(lines, allLeft, withoutNeedless(allEdits, lines), alone, Optional.empty());
    }

    /** A port whose pad no line takes in the end keeps it, unless a line needs its wires. */
    private List<Edit> withoutNeedless(List<Edit> all, List<Bus.Line> lines) {
        List<Edit> result = new ArrayList<>(all);
        for (int pad : pads) {
            boolean taken = lines.stream().anyMatch(l -> l.pad() == pad);
            Optional<Port> port = design.findPortOn(pad).filter(p -> !taken);
            if (port.isPresent() && !removedBefore) {
                result.remove(new Edit.DisconnectPort(port.get().name()));
            }
        }
        return Outcome.of(design, result) instanceof Outcome.Applied ? result : all;
    }

    /** What no route may enter: used vertices, and pads, which may only be ends. */
    static BitSet closed(Design design) {
        BitSet closed = design.occupancy().toBits();
        design.fabric().pads().forEach(p -> closed.set(p.vertex()));
        design.tiedPins().forEach(closed::set);
        return closed;
    }

    /** The wires of all nets; none where no switches exclude each other. */
    static List<RouteTree> trees(Design design) {
        return design.fabric().switchGroups().isEmpty()
                ? List.of()
                : design.nets().stream().map(Net::route).toList();
    }

    private VertexPath newPart(Design start, int index, RouteTree tree) {
        RouteTree own = start.findNet(nets.get(index).name()).orElseThrow().route();
        IntArrayList reversed = new IntArrayList();
        int goal = start.fabric().pads().get(pads.get(index)).vertex();
        for (int p = tree.placeOf(goal); p != Fabric.NOTHING; p = tree.parent(p)) {
            reversed.add(tree.vertex(p));
            if (own.placeOf(tree.vertex(p)) != Fabric.NOTHING) {
                break;
            }
        }
        int[] path = new int[reversed.size()];
        for (int i = 0; i < path.length; i++) {
            path[i] = reversed.getInt(path.length - 1 - i);
        }
        return new VertexPath(path);
    }

    /**
     * The line of a net over a vertex path; empty when the path uses a vertex that is closed for
     * the net, or a site that an earlier line goes through.
     *
     * @param now the design with the earlier lines applied
     * @param driver what is wanted of the pad's driver
     * @param standing name of the setting that the driver has before
     */
    static Optional<Bus.Line> line(
            Design now, Net net, int pad, WantedDriver driver, String standing, VertexPath path) {
        Net own = now.findNet(net.name()).orElseThrow();
        QuestionContext context =
                new QuestionContext(now, own, Optional.empty(), now.fabric().pads().get(pad));
        Pad goal = now.fabric().pads().get(pad);
        if (context.enableOccupant(goal) != Fabric.NOTHING
                || QuestionContext.isEnabledByItself(own, now, goal)) {
            return Optional.empty();
        }
        for (int i = 1; i < path.size(); i++) {
            int vertex = path.vertex(i);
            boolean passesPad = i < path.size() - 1 && now.fabric().kind(vertex) == VertexKind.PAD;
            boolean excluded = context.switchUser(path.vertex(i - 1), vertex) != Fabric.NOTHING;
            if (passesPad || excluded || context.closed().get(vertex) || context.isUsed(vertex)) {
                return Optional.empty();
            }
        }
        if (!SwitchGroupSearch.isWithoutPairs(now.fabric(), path)) {
            return Optional.empty();
        }
        Question question = new Question(now, own, pad, Corner.SLOW, driver);
        Route route = new RouteBuilder(question, context).build(path);
        return Optional.of(new Bus.Line(own, pad, route, standing));
    }
}
