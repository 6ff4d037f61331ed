package padward.route.search;

import java.util.Locale;

/** Which search answers. All find routes of equal cost. */
public enum SearchEngineKind {
    /** The project's own A*. */
    OWN,
    /** JGraphT's Dijkstra on the same graph, without a lower bound. */
    REFERENCE,
    /** JGraphT's A* on the same graph, with the project's bound. */
    REFERENCE_GUIDED;

    /** As it is written on the command line. */
    @Override
    public String toString() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }
}
