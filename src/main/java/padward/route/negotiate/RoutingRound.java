package padward.route.negotiate;

import java.util.List;
import java.util.Optional;
import padward.design.RouteTree;

/**
 * The state after one round of {@link NegotiatedRouter}, as a value.
 *
 * @param number the round, from 1
 * @param routed indices of the jobs that were routed in it
 * @param trees the tree of each job after it; they may overlap; empty for no route
 * @param priced vertices that are shared now or have been, in the order of their numbers, with what
 *     they cost in the next round
 */
public record RoutingRound(
        int number,
        List<Integer> routed,
        List<Optional<RouteTree>> trees,
        List<PricedVertex> priced) {
    /** Copies the lists. */
    public RoutingRound {
        routed = List.copyOf(routed);
        trees = List.copyOf(trees);
        priced = List.copyOf(priced);
    }

    /**
     * A vertex with a congestion price. Entering it costs (b + h) · p, with b the delay (McMurchie
     * and Ebeling, FPGA'95).
     *
     * @param vertex the vertex
     * @param users how many jobs' trees use it
     * @param pricePs h, what it has been raised by, picoseconds
     * @param times p, for a job that does not use it
     */
    public record PricedVertex(int vertex, int users, int pricePs, int times) {}

    /** How many vertices are shared. */
    public long sharedCount() {
        return priced.stream().filter(p -> p.users() > 1).count();
    }
}
