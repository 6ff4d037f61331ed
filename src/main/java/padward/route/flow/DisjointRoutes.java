package padward.route.flow;

import java.util.List;
import java.util.Optional;
import padward.route.search.VertexPath;

/**
 * Routes that share no vertex, at most one for each net and one to each goal.
 *
 * @param routes for each net its route, from a vertex of its tree to a goal; empty when it has none
 * @param cost sum of the routes' costs, those of starts and goals included
 * @param mostServed how many nets can have one at the most; greater than {@link #served} only when
 *     the search was stopped
 * @param proven whether no other choice has more routes, nor as many for less; false when the
 *     search was stopped
 * @param cut why not all nets have one; empty when all have, when the search was stopped, and when
 *     it was not looked for
 */
public record DisjointRoutes(
        List<Optional<VertexPath>> routes,
        long cost,
        int mostServed,
        boolean proven,
        Optional<FlowCut> cut) {
    /** Copies the list. */
    public DisjointRoutes {
        routes = List.copyOf(routes);
    }

    /** Number of nets that have a route. */
    public int served() {
        return (int) routes.stream().filter(Optional::isPresent).count();
    }
}
