package padward.watch.place;

import java.util.List;

/**
 * A site for each element of a circuit.
 *
 * @param sites by element; no two on one site
 * @param cost estimated length of all connections, in tiles
 */
record Layout(List<FreeSite> sites, double cost) {
    Layout {
        sites = List.copyOf(sites);
    }
}
