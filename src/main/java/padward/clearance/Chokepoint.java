package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.route.Path;
import padward.route.Starts;

/**
 * A resource that every way to the pad passes.
 *
 * @param vertex the vertex; of a site's pins that all ways pass, the first
 * @param resource name of the site or wire or pad
 * @param resourceKind {@code IO register site}, {@code site}, {@code wire}, {@code pad}
 * @param holder who holds it, and so must let it go; empty when nobody does
 */
public record Chokepoint(
        int vertex, String resource, String resourceKind, Optional<Occupant> holder) {
    /** Whether it is held, so that nothing opens a way without freeing it. */
    public boolean mustBeFreed() {
        return holder.isPresent();
    }

    /**
     * What every free way passes. O(V + E).
     *
     * @param way the new part of one of them
     */
    public static List<Chokepoint> onFreeWays(Situation situation, Starts starts, Path way) {
        IntList vertices =
                Chokepoints.along(
                        situation.design().fabric(),
                        starts,
                        new IntArrayList(way.toVertices()),
                        situation.overFree());
        return named(vertices, situation);
    }

    /** Vertices by the names of what they belong to; the pins of one site once. */
    static List<Chokepoint> named(IntList vertices, Situation situation) {
        Fabric fabric = situation.design().fabric();
        Map<String, Chokepoint> result = new LinkedHashMap<>();
        for (int vertex : vertices) {
            String name = Resources.name(fabric, vertex);
            int holder = situation.obstacleAt(vertex);
            Chokepoint known = result.get(name);
            if (known == null || holder != Fabric.NOTHING && known.holder().isEmpty()) {
                Optional<Occupant> by =
                        holder == Fabric.NOTHING
                                ? Optional.empty()
                                : Optional.of(situation.design().occupancy().occupant(holder));
                result.put(name, new Chokepoint(vertex, name, Resources.kind(fabric, vertex), by));
            }
        }
        return List.copyOf(result.values());
    }
}
