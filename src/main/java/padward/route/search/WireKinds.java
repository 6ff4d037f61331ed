package padward.route.search;

import java.util.Arrays;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import java.util.stream.Collectors;
import padward.base.Progress;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.fabric.delay.Corner;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;

/**
 * Kinds of wire that a route may use, such as those of a clock network.
 *
 * @param fabric the fabric
 * @param kinds names of the kinds; empty for all
 */
public record WireKinds(Fabric fabric, Optional<Set<String>> kinds) {
    /** Copies the names. */
    public WireKinds {
        kinds = kinds.map(Set::copyOf);
    }

    /** All kinds of wire. */
    public static WireKinds all(Fabric fabric) {
        return new WireKinds(fabric, Optional.empty());
    }

    /** The kinds on which a tree already runs. */
    public static WireKinds of(Fabric fabric, RouteTree tree) {
        return new WireKinds(
                fabric,
                Optional.of(
                        Arrays.stream(tree.toVertices())
                                .filter(v -> fabric.kind(v) == VertexKind.WIRE)
                                .mapToObj(fabric::wireKind)
                                .collect(Collectors.toSet())));
    }

    private boolean has(int vertex) {
        return fabric.kind(vertex) != VertexKind.WIRE
                || kinds.map(k -> k.contains(fabric.wireKind(vertex))).orElse(true);
    }

    /** The other kinds of wire among some vertices, in the order of the alphabet. */
    public Set<String> others(int... vertices) {
        return Arrays.stream(vertices)
                .filter(v -> !has(v))
                .mapToObj(fabric::wireKind)
                .collect(Collectors.toCollection(TreeSet::new));
    }

    /**
     * The route with the shortest delay over these kinds of wire; empty when there is none.
     *
     * @param free what a step costs, or that it is closed
     * @throws CancellationException when {@code progress} says so
     */
    public Optional<VertexPath> path(
            SearchSources sources, int goal, Corner corner, CostModel free, Progress progress) {
        CustomCost over =
                (from, to, delayPs) -> {
                    boolean otherPad = to != goal && fabric.kind(to) == VertexKind.PAD;
                    return otherPad || !has(to) ? CostModel.CLOSED : free.cost(from, to, delayPs);
                };
        SearchOutcome outcome =
                new PathSearch(fabric).run(sources, goal, corner, over, LowerBound.NONE, progress);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new CancellationException("stopped on request");
        }
        return outcome instanceof SearchOutcome.Found found
                ? Optional.of(found.path())
                : Optional.empty();
    }
}
