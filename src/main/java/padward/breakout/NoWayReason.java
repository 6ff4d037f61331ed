package padward.breakout;

/** Why there is no way, not even on an empty fabric. */
public enum NoWayReason {
    /** The pad has no driver: signals only come in through it. */
    INPUT_ONLY_PAD,
    /** No edges lead from the net's wires towards any general wire. */
    NEVER_LEAVES_ITS_SITE,
    /** The net's wires lead on, but none of the ways ends at the pad. */
    PAD_OUT_OF_REACH
}
