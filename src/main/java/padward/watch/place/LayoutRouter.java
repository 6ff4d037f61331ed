package padward.watch.place;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import padward.base.Progress;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.route.negotiate.NegotiatedRouter;
import padward.route.negotiate.RouteJob;

/**
 * Routes a layout over what is free, all its nets together: nets of the design from their own
 * trees, which stay as they are; those of the circuit from its elements.
 */
final class LayoutRouter {
    private static final int ROUNDS = 12;

    private final Connections connections;
    private final UnusedResources unused;
    private final Fabric fabric;
    private final int[] pads;

    /**
     * @param pads index of the pad for each output
     */
    LayoutRouter(Connections connections, UnusedResources unused, int[] pads) {
        this.connections = connections;
        this.unused = unused;
        this.fabric = unused.design().fabric();
        this.pads = pads;
    }

    /** What routes may pass besides free wires. */
    enum Passing {
        /** Only IO register sites of pads. */
        IO_SITES,
        /** All free sites that signals can go through. */
        ALL_SITES
    }

    /**
     * Routes it.
     *
     * @param inputs by element, the vertex for each of its inputs
     * @param toPads whether room for the routes out to the pads is kept as well
     * @return empty when some net finds no route
     */
    Optional<Wiring> route(
            Layout layout, List<int[]> inputs, boolean toPads, Passing passing, Progress progress) {
        List<List<Wiring.Sink>> sinks = sinks(layout, inputs);
        List<RouteJob> jobs = new ArrayList<>();
        IntArrayList sourceOfJob = new IntArrayList();
        for (int s = 0; s < sinks.size(); s++) {
            IntArrayList goals = new IntArrayList();
            sinks.get(s).forEach(k -> goals.add(k.vertex()));
            if (toPads) {
                goals.addAll(padVertices(s));
            }
            if (!goals.isEmpty()) {
                jobs.add(RouteJob.from(fabric, base(s, layout), Corner.SLOW, goals.toIntArray()));
                sourceOfJob.add(s);
            }
        }
        BitSet closed = closed(layout, passing);
        List<Optional<RouteTree>> found =
                new NegotiatedRouter(fabric, closed, others(), Optional.empty())
                        .avoiding(unused.movable())
                        .route(jobs, ROUNDS, quiet(progress));
        List<RouteTree> trees = new ArrayList<>();
        for (int s = 0; s < sinks.size(); s++) {
            trees.add(base(s, layout));
        }
        for (int j = 0; j < found.size(); j++) {
            if (found.get(j).isEmpty()) {
                return Optional.empty();
            }
            int source = sourceOfJob.getInt(j);
            trees.set(source, withoutPads(source, layout, sinks.get(source), found.get(j).get()));
        }
        return Optional.of(new Wiring(layout, inputs, trees, sinks));
    }

    /** Nets that get no branch, whose switches exclude others. */
    private List<RouteTree> others() {
        if (fabric.switchGroups().isEmpty()) {
            return List.of();
        }
        return unused.design().nets().stream()
                .filter(n -> !connections.sources().contains(new Source.OfNet(n)))
                .filter(n -> !isMovable(n))
                .map(Net::route)
                .toList();
    }

    private boolean isMovable(Net net) {
        return Arrays.stream(net.route().toVertices()).anyMatch(unused.movable()::get);
    }

    private BitSet closed(Layout layout, Passing passing) {
        BitSet closed = (BitSet) unused.closed().clone();
        if (passing == Passing.ALL_SITES) {
            closed = (BitSet) unused.used().clone();
            BitSet pads = closed;
            fabric.pads().forEach(p -> pads.set(p.vertex()));
        }
        for (FreeSite freeSite : layout.sites()) {
            int first = freeSite.site().firstPin();
            closed.set(first, first + freeSite.site().pins().size());
        }
        return closed;
    }

    private IntArrayList padVertices(int source) {
        IntArrayList result = new IntArrayList();
        for (int o = 0; o < pads.length; o++) {
            int vertex = fabric.pads().get(pads[o]).vertex();
            if (connections.outputs()[o] == source && !unused.used().get(vertex)) {
                result.add(vertex);
            }
        }
        return result;
    }

    private List<List<Wiring.Sink>> sinks(Layout layout, List<int[]> inputs) {
        List<List<Wiring.Sink>> sinks = new ArrayList<>();
        connections.sources().forEach(s -> sinks.add(new ArrayList<>()));
        for (int e = 0; e < connections.elements(); e++) {
            int[] sources = connections.inputs(e);
            for (int i = 0; i < sources.length; i++) {
                sinks.get(sources[i]).add(new Wiring.Sink(e, inputs.get(e)[i]));
            }
            int clock = connections.clock(e);
            if (clock != Fabric.NOTHING) {
                sinks.get(clock).add(new Wiring.Sink(e, layout.sites().get(e).clockVertex()));
            }
        }
        return sinks;
    }

    private RouteTree base(int source, Layout layout) {
        Source from = connections.sources().get(source);
        if (from instanceof Source.OfNet of) {
            return of.net().route();
        }
        if (from instanceof Source.OfElement of) {
            return RouteTree.of(layout.sites().get(of.element()).outVertex());
        }
        return RouteTree.of(fabric.pads().get(((Source.OfPad) from).pad()).vertex());
    }

    /** The base and what leads from it to the sinks; the route out to a pad is found afterwards. */
    private RouteTree withoutPads(
            int source, Layout layout, List<Wiring.Sink> sinks, RouteTree tree) {
        RouteTree base = base(source, layout);
        RouteTree.Builder builder = RouteTree.Builder.from(base);
        BitSet needed = new BitSet();
        for (Wiring.Sink sink : sinks) {
            for (int at = tree.placeOf(sink.vertex()); at >= 0 && !needed.get(at); ) {
                needed.set(at);
                at = tree.parent(at);
            }
        }
        for (int place = needed.nextSetBit(0); place >= 0; place = needed.nextSetBit(place + 1)) {
            if (!builder.contains(tree.vertex(place))) {
                builder.add(tree.vertex(tree.parent(place)), tree.vertex(place));
            }
        }
        return builder.build();
    }

    /** Rounds of the router are not worth a report. */
    static Progress quiet(Progress progress) {
        return new Progress() {
            @Override
            public void report(double fraction, String message) {
                // the caller reports the layouts that are tried
            }

            @Override
            public boolean cancelled() {
                return progress.cancelled();
            }
        };
    }
}
