package padward.watch.place;

import java.util.List;

/**
 * A spot for each element of a circuit.
 *
 * @param spots by element; no two on one site
 * @param cost estimated length of all connections, in tiles
 */
record Layout(List<FreeSite> spots, double cost) {
    Layout {
        spots = List.copyOf(spots);
    }
}
