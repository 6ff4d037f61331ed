package padward.synth;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.Set;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
import padward.fabric.pattern.PatternFabric;
import padward.fabric.pattern.PatternFault;
import padward.fabric.pattern.PatternSpec;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;

/** Makes a fabric with a placed and routed design on it; the same seed gives the same design. */
public final class DesignMaker {
    private static final int ROUNDS = 40;

    private DesignMaker() {}

    /**
     * Makes one on a regular fabric.
     *
     * @param wires number of wires, about
     * @param seed seed of all choices
     * @param used share of the logic, memory and multiplier sites that the design uses, 0 to 1
     * @throws java.util.concurrent.CancellationException when {@code progress} is cancelled
     */
    public static MadeDesign make(int wires, long seed, double used, Progress progress) {
        return make(FabricMaker.make(wires, seed), seed, used, progress);
    }

    private static MadeDesign make(PatternSpec spec, long seed, double used, Progress progress) {
        Set<String> clockKinds =
                spec.wires().stream()
                        .filter(w -> w.use().equals("clock"))
                        .map(PatternSpec.WireKind::name)
                        .collect(Collectors.toSet());
        return make(Optional.of(spec), compile(spec), clockKinds, seed, used, progress);
    }

    /** As {@link #make(int, long, double, Progress)}, on a fabric with long lines. */
    public static MadeDesign makeWithLongLines(
            int wires, long seed, double used, Progress progress) {
        return make(FabricMaker.makeWithLongLines(wires, seed), seed, used, progress);
    }

    /** As {@link #make(int, long, double, Progress)}, on an irregular fabric. */
    public static MadeDesign makeIrregular(int wires, long seed, double used, Progress progress) {
        Fabric fabric = IrregularMaker.make(compile(FabricMaker.make(wires, seed)));
        return make(Optional.empty(), fabric, Set.of(IrregularMaker.GLOBAL), seed, used, progress);
    }

    private static MadeDesign make(
            Optional<PatternSpec> spec,
            Fabric fabric,
            Set<String> clockKinds,
            long seed,
            double used,
            Progress progress) {
        Random random = new Random(seed * 31 + 7);
        DraftNetlist plan = new DraftNetlist(fabric);
        NetlistMaker netlist = new NetlistMaker(plan, random);
        netlist.make(used);
        new IoMaker(plan, netlist, random).make();
        DraftNetlist.PlannedNet clock = plan.nets.get(plan.nets.size() - 1);
        plan.nets.removeIf(n -> n.sinks.isEmpty() && n != clock);
        List<Net> nets = route(plan, clockKinds, progress);
        Design design =
                new Design(
                        "made-" + seed,
                        "Invented design, made from seed " + seed + ".",
                        fabric,
                        BoardMaker.make(plan, random),
                        plan.cells,
                        nets,
                        plan.ports);
        return new MadeDesign(spec, design, plan.nets.size() - nets.size());
    }

    private static Fabric compile(PatternSpec spec) {
        try {
            return PatternFabric.compile(spec);
        } catch (PatternFault fault) {
            throw new IllegalStateException("the maker's own pattern is at fault", fault);
        }
    }

    /**
     * The clock first, on its own wires; then the others. Nets that cannot be routed are left out.
     */
    private static List<Net> route(DraftNetlist plan, Set<String> clockKinds, Progress progress) {
        BitSet closed = closedPins(plan);
        List<DraftNetlist.PlannedNet> planned = new ArrayList<>(plan.nets);
        DraftNetlist.PlannedNet clock = planned.remove(planned.size() - 1);
        List<Terminal> reached = new ArrayList<>();
        RouteTree clockTree = ClockTree.grow(plan, clock, clockKinds, closed, reached);
        for (int place = 0; place < clockTree.size(); place++) {
            closed.set(clockTree.vertex(place));
        }
        List<RouteJob> jobs =
                planned.stream()
                        .map(
                                n ->
                                        new RouteJob(
                                                plan.vertexOf(n.driver),
                                                n.sinks.stream()
                                                        .mapToInt(plan::vertexOf)
                                                        .toArray()))
                        .toList();
        List<Optional<RouteTree>> trees =
                new NegotiatedRouter(plan.fabric, closed).route(jobs, ROUNDS, progress);
        List<Net> nets = new ArrayList<>();
        nets.add(new Net(0, clock.name, clock.driver, reached, clockTree, true));
        for (int i = 0; i < planned.size(); i++) {
            if (trees.get(i).isPresent()) {
                DraftNetlist.PlannedNet net = planned.get(i);
                nets.add(
                        new Net(
                                nets.size(),
                                net.name,
                                net.driver,
                                net.sinks,
                                trees.get(i).get(),
                                false));
            }
        }
        return nets;
    }

    /** Pins of occupied sites, pins of sites that nothing may pass through, and all pads. */
    private static BitSet closedPins(DraftNetlist plan) {
        Fabric fabric = plan.fabric;
        BitSet closed = new BitSet(fabric.vertexCount());
        for (int s = 0; s < fabric.siteCount(); s++) {
            SiteView site = fabric.site(s);
            if (!site.kind().equals("io-register")) {
                closed.set(site.firstPin(), site.firstPin() + site.pins().size());
            }
        }
        for (Cell cell : plan.cells) {
            SiteView site = fabric.site(cell.site());
            closed.set(site.firstPin(), site.firstPin() + site.pins().size());
        }
        fabric.pads().forEach(p -> closed.set(p.vertex()));
        return closed;
    }
}
