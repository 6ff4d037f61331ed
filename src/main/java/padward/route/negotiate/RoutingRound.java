package padward.route.negotiate;

import java.util.List;
import java.util.Optional;
import padward.design.RouteTree;

/**
 * What one round of {@link NegotiatedRouter} left, as a value.
 *
 * @param number the round, from 1
 * @param routed indices of the jobs that were laid anew in it
 * @param trees the tree of each job as it lies now; they may overlap; empty for no way
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
     * @param users how many jobs' trees hold it
     * @param pricePs h, what it has been raised by, picoseconds
     * @param times p, for a job that does not hold it
     */
    public record PricedVertex(int vertex, int users, int pricePs, int times) {}

    /** How many vertices are shared. */
    public long sharedCount() {
        return priced.stream().filter(p -> p.users() > 1).count();
    }
}
