package padward.breakout.ask;

import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.bound.LowerBound;
import padward.route.cost.CostModel;
import padward.route.cost.CustomCost;
import padward.route.search.PathSearch;
import padward.route.search.SearchOutcome;
import padward.unblock.release.PortBranch;
import padward.unblock.release.QuestionContext;

/**
 * A clock that is brought out to a pad: kept on the kinds of wire that its net already uses,
 * through the pad's IO register site, or taken over general wires, where it is late and its edges
 * depend on neighbouring signals (common practice, no source).
 *
 * @param otherKinds kinds of wire on a route that the clock's own tree does not use; empty when it
 *     stays on the clock's own
 * @param route the route with the shortest delay over free wires of the clock's own kinds; empty
 *     when there is none
 */
public record ClockForwarding(Set<String> otherKinds, Optional<Route> route) {
    /** Copies the kinds. */
    public ClockForwarding {
        otherKinds = Set.copyOf(otherKinds);
    }

    /**
     * Finds the wires on which a route takes a clock out, and a route on the clock's own.
     *
     * @param route a route that answers the question
     * @throws CancellationException when {@code progress} says so
     */
    public static ClockForwarding of(Question question, Route route, Progress progress) {
        Fabric fabric = question.design().fabric();
        Set<String> own = kinds(fabric, question.net());
        Set<String> others = new TreeSet<>();
        for (Hop hop : route.hops().subList(route.branchHop() + 1, route.hops().size())) {
            if (hop.kind() == VertexKind.WIRE && !own.contains(fabric.wireKind(hop.vertex()))) {
                others.add(fabric.wireKind(hop.vertex()));
            }
        }
        return new ClockForwarding(
                others, others.isEmpty() ? Optional.of(route) : search(question, own, progress));
    }

    private static Set<String> kinds(Fabric fabric, Net net) {
        Set<String> result = new HashSet<>();
        RouteTree tree = net.route();
        for (int place = 0; place < tree.size(); place++) {
            if (fabric.kind(tree.vertex(place)) == VertexKind.WIRE) {
                result.add(fabric.wireKind(tree.vertex(place)));
            }
        }
        return result;
    }

    private static Optional<Route> search(Question question, Set<String> own, Progress progress) {
        Fabric fabric = question.design().fabric();
        var disconnected = PortBranch.find(question.design(), question.pad());
        QuestionContext situation =
                new QuestionContext(
                        question.design(), question.net(), disconnected, question.padValue());
        CostModel free = situation.overFree();
        int goal = question.padValue().vertex();
        CustomCost overOwnKinds =
                (from, to, delayPs) -> {
                    boolean otherPad = to != goal && fabric.kind(to) == VertexKind.PAD;
                    boolean otherWire =
                            fabric.kind(to) == VertexKind.WIRE
                                    && !own.contains(fabric.wireKind(to));
                    return otherPad || otherWire ? CostModel.CLOSED : free.cost(from, to, delayPs);
                };
        SearchOutcome outcome =
                new PathSearch(fabric)
                        .run(
                                Asker.starts(question),
                                goal,
                                question.corner(),
                                overOwnKinds,
                                LowerBound.NONE,
                                progress);
        if (outcome instanceof SearchOutcome.Cancelled) {
            throw new CancellationException("stopped on request");
        }
        return outcome instanceof SearchOutcome.Found found
                ? Optional.of(new RouteBuilder(question, situation).build(found.path()))
                : Optional.empty();
    }

    /** As one or two sentences. */
    public String toText() {
        if (otherKinds.isEmpty()) {
            return "The clock stays on the kinds of wire that its net already uses.";
        }
        String dragged =
                "The clock leaves its own kinds of wire and runs on "
                        + String.join(", ", new TreeSet<>(otherKinds))
                        + ".";
        return dragged
                + route.map(
                                w ->
                                        " A route on its own kinds of wire takes "
                                                + w.total().toText()
                                                + ".")
                        .orElse(" No free route to the pad stays on its own kinds of wire.");
    }
}
