package padward.breakout;

import java.util.HashSet;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.clearance.PortBranch;
import padward.clearance.Situation;
import padward.design.Net;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;
import padward.route.CostModel;
import padward.route.FreeWays;
import padward.route.LowerBound;
import padward.route.PathSearch;
import padward.route.SearchOutcome;

/**
 * A clock on its way to a pad: forwarded over the kinds of wire that it runs on anyhow, through the
 * pad's IO register site, or dragged through general wires, where it is late and its edges depend
 * on what lies beside it (common practice, no source).
 *
 * @param otherKinds kinds of wire on a way that the clock's own tree does not use; empty when it is
 *     forwarded
 * @param way the quickest way over free wires of the clock's own kinds; empty when there is none
 */
public record Forwarding(Set<String> otherKinds, Optional<Way> way) {
    /** Copies the kinds. */
    public Forwarding {
        otherKinds = Set.copyOf(otherKinds);
    }

    /**
     * Looks how a way takes a clock out, and for one that forwards it.
     *
     * @param way a way that answers the question
     * @throws CancellationException when {@code progress} says so
     */
    public static Forwarding of(Question question, Way way, Progress progress) {
        Fabric fabric = question.design().fabric();
        Set<String> own = kinds(fabric, question.net());
        Set<String> others = new TreeSet<>();
        for (Hop hop : way.hops().subList(way.branchHop() + 1, way.hops().size())) {
            if (hop.kind() == VertexKind.WIRE && !own.contains(fabric.wireKind(hop.vertex()))) {
                others.add(fabric.wireKind(hop.vertex()));
            }
        }
        return new Forwarding(
                others, others.isEmpty() ? Optional.of(way) : search(question, own, progress));
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

    private static Optional<Way> search(Question question, Set<String> own, Progress progress) {
        Fabric fabric = question.design().fabric();
        var letGo = PortBranch.find(question.design(), question.pad());
        Situation situation = new Situation(question.design(), question.net(), letGo);
        FreeWays free = situation.overFree();
        int goal = question.padValue().vertex();
        CostModel overOwnKinds =
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
                ? Optional.of(new WayBuilder(question, situation).build(found.path(), letGo))
                : Optional.empty();
    }

    /** As one or two sentences. */
    public String toText() {
        if (otherKinds.isEmpty()) {
            return "The clock is forwarded: it stays on the kinds of wire that it runs on anyhow.";
        }
        String dragged =
                "The clock leaves its own wires and goes over "
                        + String.join(", ", new TreeSet<>(otherKinds))
                        + ".";
        return dragged
                + way.map(w -> " It can be forwarded instead, in " + w.total().toText() + ".")
                        .orElse(
                                " No free way forwards it: none leads from its own kinds of wire"
                                        + " through the pad's IO register site.");
    }
}
