package padward.route;

/** Which search answers. Both give ways of equal cost. */
public enum Engine {
    /** The project's own A*. */
    OWN,
    /** JGraphT's Dijkstra on the same graph. */
    REFERENCE
}
