package padward.api;

/**
 * A delay at both corners.
 *
 * @param fastPs at the fast corner, picoseconds
 * @param slowPs at the slow corner, picoseconds
 */
public record DelayRange(int fastPs, int slowPs) {}
