package padward.breakout.ask;

import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.route.search.WireKinds;
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
        WireKinds own = WireKinds.of(question.design().fabric(), question.net().route());
        Set<String> others =
                own.others(
                        route.hops().subList(route.branchHop() + 1, route.hops().size()).stream()
                                .mapToInt(Hop::vertex)
                                .toArray());
        return new ClockForwarding(
                others, others.isEmpty() ? Optional.of(route) : search(question, own, progress));
    }

    private static Optional<Route> search(Question question, WireKinds own, Progress progress) {
        var disconnected = PortBranch.find(question.design(), question.pad());
        QuestionContext situation =
                new QuestionContext(
                        question.design(), question.net(), disconnected, question.padValue());
        return own.path(
                        Asker.starts(question),
                        question.padValue().vertex(),
                        question.corner(),
                        situation.overFree(),
                        progress)
                .map(new RouteBuilder(question, situation)::build);
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
