package padward.fabric;

import java.util.List;

/**
 * One site, as a value made on demand.
 *
 * @param id dense number of the site, 0 to {@code siteCount() - 1}
 * @param name full name, {@code x3y4/cell[1]}
 * @param kind kind of the site, such as {@code io-register}
 * @param tile number of its tile
 * @param accepts kinds of cell that it accepts
 * @param firstPin vertex of its first pin; its pins are numbered without gaps from there
 * @param pins its pins in order of their vertices
 */
public record SiteView(
        int id,
        String name,
        String kind,
        int tile,
        List<String> accepts,
        int firstPin,
        List<SitePin> pins) {
    /** Copies the lists. */
    public SiteView {
        accepts = List.copyOf(accepts);
        pins = List.copyOf(pins);
    }

    /** The vertex of the pin of that name, or {@link Fabric#NOTHING}. O(pins). */
    public int findPin(String pinName) {
        for (int i = 0; i < pins.size(); i++) {
            if (pins.get(i).name().equals(pinName)) {
                return firstPin + i;
            }
        }
        return Fabric.NOTHING;
    }
}
