package padward.breakout.ask;

/** Why there is no route, whatever is removed of other nets and cells. */
public enum NoRouteReason {
    /** The pad has no driver: signals only come in through it. */
    INPUT_ONLY_PAD,
    /** No setting of the pad's driver is for the voltage that its bank is supplied with. */
    NO_FITTING_SETTING,
    /** The net's own driver controls the enable of the pad's driver, and cannot be removed. */
    OWN_DRIVER_ON_ENABLE,
    /** Cells or nets that are locked would have to give way, or the net itself takes no branch. */
    LOCKED,
    /** All routes go over wires or sites that are marked as unusable. */
    UNUSABLE_ON_ROUTE,
    /** No edges lead from the net's wires towards any general wire. */
    NEVER_LEAVES_ITS_SITE,
    /** The net is a clock, on wires that lead to clock pins only. */
    CLOCK_WIRES_ONLY,
    /** The net gets on wires of kinds of their own, none of which leads to any pad. */
    DEDICATED_WIRES,
    /** No wire at all leads to the pad. */
    NOTHING_LEADS_TO_PAD,
    /** The net's wires lead on, but none of the routes ends at the pad. */
    PAD_OUT_OF_REACH,
    /** All routes need other pins of sites that the net itself passes through. */
    OWN_PASS_THROUGH,
    /** All routes need two switches of which at most one can be on. */
    SWITCHES_EXCLUDE
}
