package padward.fabric;

/**
 * A pin of a site.
 *
 * @param name name inside the site, {@code in[2]}
 * @param direction in which direction the signal goes
 * @param alike a word that all those in pins of the site, or of the part, have that can take each
 *     other's signal, as the inputs of a lookup table; {@code ""} for a pin that is like no other
 */
public record SitePin(String name, PinDirection direction, String alike) {
    /** One that is like no other. */
    public SitePin(String name, PinDirection direction) {
        this(name, direction, "");
    }

    /** Whether the signals of two pins of one site or part can be swapped. */
    public boolean isLike(SitePin other) {
        return !alike.isEmpty() && alike.equals(other.alike) && !equals(other);
    }
}
