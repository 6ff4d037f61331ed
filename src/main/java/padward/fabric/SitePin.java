package padward.fabric;

import java.util.List;

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

    /** The place of the pin of that name, or {@link Fabric#NOTHING}. O(pins). */
    public static int find(List<SitePin> pins, String name) {
        for (int i = 0; i < pins.size(); i++) {
            if (pins.get(i).name().equals(name)) {
                return i;
            }
        }
        return Fabric.NOTHING;
    }

    /** Whether the signals of two pins of one site or part can be swapped. */
    public boolean isLike(SitePin other) {
        return !alike.isEmpty() && alike.equals(other.alike) && !equals(other);
    }
}
