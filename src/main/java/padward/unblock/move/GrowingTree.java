package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;
import padward.timing.TreeDelays;

/** A net's wires as they grow path by path, with the delays on them. */
final class GrowingTree {
    private final RouteTree.Builder builder;
    private final IntArrayList vertices = new IntArrayList();
    private final Int2ObjectOpenHashMap<Delay> delays = new Int2ObjectOpenHashMap<>();
    private final RouteTree base;
    private final Fabric fabric;
    private final StepDelays steps;

    GrowingTree(Fabric fabric, StepDelays steps, RouteTree base) {
        this.fabric = fabric;
        this.steps = steps;
        this.base = base;
        builder = new RouteTree.Builder(base.root());
        TreeDelays known = TreeDelays.of(fabric, base);
        for (int place = 0; place < base.size(); place++) {
            if (place > 0) {
                builder.add(base.vertex(base.parent(place)), base.vertex(place));
            }
            vertices.add(base.vertex(place));
            delays.put(base.vertex(place), known.at(place));
        }
    }

    /** Notes what is kept as routed, so that nothing else is routed across it. */
    void routeBase(OccupancyOverlay overlay) {
        for (int place = 1; place < base.size(); place++) {
            routeStep(base.vertex(base.parent(place)), base.vertex(place), overlay);
        }
    }

    boolean contains(int vertex) {
        return builder.contains(vertex);
    }

    SearchSources starts(Corner corner) {
        long[] costs = new long[vertices.size()];
        for (int i = 0; i < costs.length; i++) {
            costs[i] = delays.get(vertices.getInt(i)).at(corner);
        }
        return new SearchSources(vertices.toIntArray(), costs);
    }

    /** The delay at the end of a path from the tree. */
    long arrival(VertexPath path, Corner corner) {
        long sum = delays.get(path.first()).at(corner);
        for (int i = 1; i < path.size(); i++) {
            sum += steps.delay(path.vertex(i - 1), path.vertex(i)).at(corner);
        }
        return sum;
    }

    void add(VertexPath path, OccupancyOverlay overlay) {
        for (int i = 1; i < path.size(); i++) {
            int from = path.vertex(i - 1);
            int to = path.vertex(i);
            builder.add(from, to);
            vertices.add(to);
            delays.put(to, delays.get(from).plus(steps.delay(from, to)));
            routeStep(from, to, overlay);
        }
    }

    private void routeStep(int from, int to, OccupancyOverlay overlay) {
        overlay.route(to);
        overlay.switches().turnOn(from, to);
        if (steps.isThrough(from, to)) {
            steps.pinsOf(fabric.siteOf(to)).forEach(overlay::route);
        }
    }

    /** Adds a path that others have to keep clear of when they are rerouted. */
    void addReserved(VertexPath path, OccupancyOverlay overlay) {
        add(path, overlay);
        for (int i = 1; i < path.size(); i++) {
            overlay.reserve(path.vertex(i));
            overlay.switches().reserve(path.vertex(i - 1), path.vertex(i));
            if (steps.isThrough(path.vertex(i - 1), path.vertex(i))) {
                steps.pinsOf(fabric.siteOf(path.vertex(i))).forEach(overlay::reserve);
            }
        }
    }

    RouteTree build() {
        return builder.build();
    }
}
