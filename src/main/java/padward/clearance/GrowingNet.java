package padward.clearance;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import padward.design.RouteTree;
import padward.fabric.Corner;
import padward.fabric.Delay;
import padward.fabric.Fabric;
import padward.route.Path;
import padward.route.Starts;
import padward.timing.TreeDelays;

/** A net's wires as they grow path by path, with the delays on them. */
final class GrowingNet {
    private final RouteTree.Builder builder;
    private final IntArrayList vertices = new IntArrayList();
    private final Int2ObjectOpenHashMap<Delay> delays = new Int2ObjectOpenHashMap<>();
    private final RouteTree base;
    private final Fabric fabric;
    private final Steps steps;

    GrowingNet(Fabric fabric, Steps steps, RouteTree base) {
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

    /** Notes what is kept as laid, so that nothing else is laid across it. */
    void layBase(Ground ground) {
        for (int place = 1; place < base.size(); place++) {
            layStep(base.vertex(base.parent(place)), base.vertex(place), ground);
        }
    }

    boolean contains(int vertex) {
        return builder.contains(vertex);
    }

    Starts starts(Corner corner) {
        long[] costs = new long[vertices.size()];
        for (int i = 0; i < costs.length; i++) {
            costs[i] = delays.get(vertices.getInt(i)).at(corner);
        }
        return new Starts(vertices.toIntArray(), costs);
    }

    void add(Path path, Ground ground) {
        for (int i = 1; i < path.size(); i++) {
            int from = path.vertex(i - 1);
            int to = path.vertex(i);
            builder.add(from, to);
            vertices.add(to);
            delays.put(to, delays.get(from).plus(steps.delay(from, to)));
            layStep(from, to, ground);
        }
    }

    private void layStep(int from, int to, Ground ground) {
        ground.lay(to);
        if (steps.isThrough(from, to)) {
            steps.pinsOf(fabric.siteOf(to)).forEach(ground::lay);
        }
    }

    /** Adds a path that others have to keep clear of when they are laid elsewhere. */
    void addReserved(Path path, Ground ground) {
        add(path, ground);
        for (int i = 1; i < path.size(); i++) {
            ground.reserve(path.vertex(i));
            if (steps.isThrough(path.vertex(i - 1), path.vertex(i))) {
                steps.pinsOf(fabric.siteOf(path.vertex(i))).forEach(ground::reserve);
            }
        }
    }

    RouteTree build() {
        return builder.build();
    }
}
