package padward.fabric;

import java.util.ArrayList;
import java.util.List;

/**
 * One site, or one part of a site, as a value made on demand. A site that states parts, such as
 * lookup table and register of one cell, is as many of these: each part takes a cell of its own and
 * has pins and pass-throughs of its own.
 *
 * @param id dense number of the site, 0 to {@code siteCount() - 1}
 * @param name full name, {@code x3y4/cell[1]}; of a part {@code x3y4/cell[1]/table}
 * @param part name of the part inside its site; {@code ""} for a site without parts
 * @param kind kind of the site, such as {@code io-register}; that of all its parts
 * @param tile number of its tile, the first one if it has several
 * @param moreTiles the numbers of the others that it extends over
 * @param accepts kinds of cell that it accepts
 * @param firstPin vertex of its first pin; its pins are numbered without gaps from there
 * @param pins its pins in order of their vertices
 */
public record SiteView(
        int id,
        String name,
        String part,
        String kind,
        int tile,
        List<Integer> moreTiles,
        List<String> accepts,
        int firstPin,
        List<SitePin> pins) {
    /** What is between a site's name and the name of one of its parts. */
    public static final String BEFORE_PART = "/";

    /** Copies the lists. */
    public SiteView {
        moreTiles = List.copyOf(moreTiles);
        accepts = List.copyOf(accepts);
        pins = List.copyOf(pins);
    }

    /** Whether this is a part of a site. */
    public boolean isPart() {
        return !part.isEmpty();
    }

    /** The full name of the site, without the part's. */
    public String wholeName() {
        return isPart()
                ? name.substring(0, name.length() - part.length() - BEFORE_PART.length())
                : name;
    }

    /** The full name of one of its pins, which states no part. */
    public String pinName(int pin) {
        return wholeName() + "." + pins.get(pin).name();
    }

    /** {@code site x3y4/cell[1]} or {@code part table of site x3y4/cell[1]}. */
    public String described() {
        return (isPart() ? "part " + part + " of " : "") + "site " + wholeName();
    }

    /** The numbers of all tiles that it is in, the first one first. */
    public List<Integer> tiles() {
        List<Integer> all = new ArrayList<>(moreTiles);
        all.add(0, tile);
        return all;
    }

    /** The vertex of the pin of that name, or {@link Fabric#NOTHING}. O(pins). */
    public int findPin(String pinName) {
        int pin = SitePin.find(pins, pinName);
        return pin == Fabric.NOTHING ? Fabric.NOTHING : firstPin + pin;
    }
}
