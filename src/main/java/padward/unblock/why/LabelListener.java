package padward.unblock.why;

/**
 * Is notified of each step of the search for the fewest occupants. A label is a vertex with the set
 * of occupants to be removed to get there; sets are given as sorted numbers of {@link
 * padward.design.Occupancy}, and are not to be changed.
 */
public interface LabelListener {
    /**
     * The search begins.
     *
     * @param fromNet whether it starts from the net's tree towards the pad, or the other way round
     * @param atLeast no route can be opened by fewer occupants than this, as cuts alone show
     */
    void begun(boolean fromNet, int atLeast);

    /** A label waits to be looked at. */
    void made(int vertex, int[] occupants);

    /** A label is not made: a smaller set, or the same, has come to the vertex before. */
    void dropped(int vertex, int[] occupants);

    /** The most promising label is looked at. */
    void taken(int vertex, int[] occupants);

    /** The label just taken has arrived at the other end: removing its set opens a route. */
    void arrived(int vertex, int[] occupants);
}
