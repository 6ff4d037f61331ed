package padward.unblock.why;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.Progress;
import padward.design.Occupant;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.search.SearchSources;
import padward.route.search.VertexPath;
import padward.unblock.release.QuestionContext;
import padward.unblock.release.ResourceText;

/**
 * A resource that every route to the pad passes.
 *
 * @param vertex the vertex; of a site's pins that all routes pass, the first
 * @param resource name of the site or wire or pad
 * @param resourceKind {@code IO register site}, {@code site}, {@code wire}, {@code pad}
 * @param occupant what uses it, and so must be removed; empty if it is free
 */
public record Chokepoint(
        int vertex, String resource, String resourceKind, Optional<Occupant> occupant) {
    /** Whether it is used, so that no route opens unless its occupant is removed. */
    public boolean mustBeRemoved() {
        return occupant.isPresent();
    }

    /**
     * What every free route passes; none goes through a pad on the way. O(V + E).
     *
     * @param route the new part of one of them
     */
    public static List<Chokepoint> onFreeRoutes(
            QuestionContext context, SearchSources starts, VertexPath route, Progress progress) {
        Fabric fabric = context.design().fabric();
        IntList vertices =
                Chokepoints.along(
                        fabric,
                        starts,
                        new IntArrayList(route.toVertices()),
                        notThroughPads(fabric, context.overFree(), route.last()),
                        progress);
        return named(vertices, context);
    }

    /** A model's edges without those into pads other than the goal. */
    public static CostModel notThroughPads(Fabric fabric, CostModel model, int goal) {
        CustomCost result =
                (from, to, delay) ->
                        to != goal && fabric.kind(to) == VertexKind.PAD
                                ? CostModel.CLOSED
                                : model.cost(from, to, delay);
        return result;
    }

    /** Vertices by the names of what they belong to; the pins of one site once. */
    public static List<Chokepoint> named(IntList vertices, QuestionContext context) {
        Fabric fabric = context.design().fabric();
        Map<String, Chokepoint> result = new LinkedHashMap<>();
        for (int vertex : vertices) {
            String name = ResourceText.name(fabric, vertex);
            int occupant = context.obstacleAt(vertex);
            Chokepoint known = result.get(name);
            if (known == null || occupant != Fabric.NOTHING && known.occupant().isEmpty()) {
                Optional<Occupant> by =
                        occupant == Fabric.NOTHING
                                ? Optional.empty()
                                : Optional.of(context.design().occupancy().occupant(occupant));
                result.put(
                        name, new Chokepoint(vertex, name, ResourceText.kind(fabric, vertex), by));
            }
        }
        return List.copyOf(result.values());
    }
}
