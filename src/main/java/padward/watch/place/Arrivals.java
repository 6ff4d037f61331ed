package padward.watch.place;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.CellFunction;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.delay.Delay;
import padward.timing.EdgeFinder;
import padward.timing.TreeDelays;

/** Works out the delays of a placed circuit: along its nets, through its tables and registers. */
final class Arrivals {
    private final Connections connections;
    private final Wiring wiring;
    private final WatchEdits names;
    private final Design before;
    private final List<WatchResult.Leg> legs;
    private final EdgeFinder edges;

    /** By source, its tree with the route to the pads, and the delays along it. */
    private final List<RouteTree> trees = new ArrayList<>();

    private final List<TreeDelays> delays = new ArrayList<>();
    private boolean unknownTables;
    private boolean unknownRegisters;

    Arrivals(
            Connections connections,
            Wiring wiring,
            WatchEdits names,
            Design before,
            Design after,
            List<WatchResult.Leg> legs) {
        this.connections = connections;
        this.wiring = wiring;
        this.names = names;
        this.before = before;
        this.legs = legs;
        this.edges = new EdgeFinder(after.fabric());
        for (int s = 0; s < connections.sources().size(); s++) {
            RouteTree tree =
                    after.occupancy()
                            .findNetOn(wiring.trees().get(s).root())
                            .map(Net::route)
                            .orElse(wiring.trees().get(s));
            trees.add(tree);
            delays.add(TreeDelays.of(after.fabric(), tree));
        }
    }

    WatchTiming timing() {
        List<WatchTiming.Arrival> arrivals = new ArrayList<>();
        List<WatchTiming.ClockUse> clocks = new ArrayList<>();
        for (int s = 0; s < connections.sources().size(); s++) {
            if (connections.sources().get(s) instanceof Source.OfNet of) {
                if (isClock(s)) {
                    clocks.add(clock(s, of.net()));
                }
                arrivals.addAll(new Spread(s, false).arrivals(of.net().name()));
            }
        }
        return new WatchTiming(arrivals, clocks, unknownTables, unknownRegisters);
    }

    private boolean isClock(int source) {
        for (int e = 0; e < connections.elements(); e++) {
            if (connections.clock(e) == source) {
                return true;
            }
        }
        return false;
    }

    private Delay along(int source, int vertex) {
        return delays.get(source).at(trees.get(source).placeOf(vertex));
    }

    private static Delay hull(Delay one, Delay other) {
        return new Delay(
                Math.min(one.fastPs(), other.fastPs()), Math.max(one.slowPs(), other.slowPs()));
    }

    private static Optional<Delay> hull(Optional<Delay> one, Optional<Delay> other) {
        return one.isEmpty() || other.isEmpty()
                ? one.or(() -> other)
                : Optional.of(hull(one.get(), other.get()));
    }

    private WatchTiming.ClockUse clock(int source, Net net) {
        Optional<Delay> own = Optional.empty();
        for (int e = 0; e < connections.elements(); e++) {
            if (connections.clock(e) == source) {
                int vertex = wiring.layout().sites().get(e).clockVertex();
                own = hull(own, Optional.of(along(source, vertex)));
            }
        }
        Optional<Delay> elsewhere = Optional.empty();
        TreeDelays old = TreeDelays.of(before.fabric(), net.route());
        Map<Integer, Integer> placeOf = new HashMap<>();
        for (int place = 0; place < net.route().size(); place++) {
            placeOf.put(net.route().vertex(place), place);
        }
        for (Terminal sink : net.sinks()) {
            Integer place = placeOf.get(before.vertexOf(sink));
            if (place != null) {
                elsewhere = hull(elsewhere, Optional.of(old.at(place)));
            }
        }
        return new WatchTiming.ClockUse(
                net.name(),
                own.orElseThrow(),
                elsewhere.orElse(own.orElseThrow()),
                new Spread(source, true).toPads());
    }

    /** The delays from one source on, or from the registers that it clocks. */
    private final class Spread {
        private final int start;
        private final boolean clocked;
        private final Map<Integer, Optional<Delay>> atSource = new HashMap<>();

        Spread(int start, boolean clocked) {
            this.start = start;
            this.clocked = clocked;
        }

        /** At the driver of a source; empty when the signal does not come there. */
        private Optional<Delay> at(int source) {
            if (!(connections.sources().get(source) instanceof Source.OfElement of)) {
                return source == start && !clocked ? Optional.of(Delay.ZERO) : Optional.empty();
            }
            Optional<Delay> known = atSource.get(source);
            if (known == null) {
                // A loop without a register has no longest path; it is cut here.
                atSource.put(source, Optional.empty());
                known = outOf(of.element());
                atSource.put(source, known);
            }
            return known;
        }

        private Optional<Delay> outOf(int element) {
            FreeSite site = wiring.layout().sites().get(element);
            if (site.function() instanceof CellFunction.Register register) {
                if (!clocked || connections.clock(element) != start) {
                    return Optional.empty();
                }
                unknownRegisters |= register.clockToOutput().isEmpty();
                return Optional.of(
                        along(start, site.clockVertex())
                                .plus(register.clockToOutput().orElse(Delay.ZERO)));
            }
            Optional<Delay> result = Optional.empty();
            for (int i = 0; i < connections.inputs(element).length; i++) {
                int vertex = wiring.inputs().get(element)[i];
                result =
                        hull(
                                result,
                                atPin(connections.inputs(element)[i], vertex)
                                        .map(d -> d.plus(through(site, vertex))));
            }
            return result;
        }

        private Optional<Delay> atPin(int source, int vertex) {
            return at(source).map(d -> d.plus(along(source, vertex)));
        }

        private Delay through(FreeSite site, int vertex) {
            Optional<EdgeFinder.EdgeValue> edge =
                    edges.find(vertex, site.outVertex())
                            .filter(e -> e.kind() == EdgeKind.PASS_THROUGH);
            unknownTables |= edge.isEmpty();
            return edge.map(EdgeFinder.EdgeValue::delay).orElse(Delay.ZERO);
        }

        List<WatchTiming.ToPad> toPads() {
            List<WatchTiming.ToPad> result = new ArrayList<>();
            for (int o = 0; o < legs.size(); o++) {
                WatchResult.Leg leg = legs.get(o);
                at(connections.outputs()[o])
                        .map(d -> d.plus(leg.answer().route().total()))
                        .ifPresent(d -> result.add(new WatchTiming.ToPad(leg.pad(), d)));
            }
            return result;
        }

        /** At the pads that it reaches through tables alone, and at the last register. */
        List<WatchTiming.Arrival> arrivals(String net) {
            List<WatchTiming.Arrival> result = new ArrayList<>();
            for (WatchTiming.ToPad pad : toPads()) {
                result.add(new WatchTiming.Arrival(net, "pad " + pad.pad(), true, pad.delay()));
            }
            Map<String, Delay> atRegisters = new LinkedHashMap<>();
            for (int e = 0; e < connections.elements(); e++) {
                if (connections.clock(e) == Fabric.NOTHING) {
                    continue;
                }
                int vertex = wiring.inputs().get(e)[0];
                FreeSite site = wiring.layout().sites().get(e);
                String end = names.nameOf(e) + "." + site.pinAt(vertex);
                atPin(connections.inputs(e)[0], vertex).ifPresent(d -> atRegisters.put(end, d));
            }
            atRegisters.entrySet().stream()
                    .max(
                            Map.Entry.comparingByValue(
                                    (a, b) -> Integer.compare(a.slowPs(), b.slowPs())))
                    .ifPresent(
                            last ->
                                    result.add(
                                            new WatchTiming.Arrival(
                                                    net,
                                                    last.getKey(),
                                                    false,
                                                    atRegisters.values().stream()
                                                            .reduce(Arrivals::hull)
                                                            .orElseThrow())));
            return result;
        }
    }
}
