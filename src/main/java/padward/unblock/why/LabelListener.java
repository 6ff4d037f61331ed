package padward.unblock.why;

/**
 * Is told what the search for the fewest occupants does while it does it. A label is a vertex with
 * the set of occupants freed to get there; sets are told as sorted numbers of {@link
 * padward.design.Occupancy}, and are not to be changed.
 */
public interface LabelListener {
    /**
     * The search begins.
     *
     * @param fromNet whether it sets out from the net's tree towards the pad, or the other way
     * @param atLeast no way can be opened by fewer occupants than this, as cuts alone show
     */
    void begun(boolean fromNet, int atLeast);

    /** A label waits to be looked at. */
    void made(int vertex, int[] occupants);

    /** A label is not made: a smaller set, or the same, has come to the vertex before. */
    void dropped(int vertex, int[] occupants);

    /** The most promising label is looked at. */
    void taken(int vertex, int[] occupants);

    /** The label just taken has arrived at the other end: freeing its set opens a way. */
    void arrived(int vertex, int[] occupants);
}
