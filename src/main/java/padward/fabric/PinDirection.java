package padward.fabric;

/** In which direction a signal goes through a site's pin, seen from the site. */
public enum PinDirection {
    /** Into the site. */
    IN,
    /** Out of the site. */
    OUT
}
