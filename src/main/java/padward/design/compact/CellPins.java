package padward.design.compact;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import padward.fabric.Fabric;
import padward.fabric.SitePin;
import padward.fabric.compact.Damaged;

/** The pins of the sites of cells by the cells' numbers. */
final class CellPins {
    private final Fabric fabric;
    private final List<List<SitePin>> pins = new ArrayList<>();
    private final IntArrayList firstPins = new IntArrayList();

    CellPins(Fabric fabric) {
        this.fabric = fabric;
    }

    /** Adds the site of the next cell; returns the cell's number. */
    int add(int site) {
        pins.add(fabric.pinsOf(site));
        firstPins.add(fabric.firstPin(site));
        return pins.size() - 1;
    }

    int cells() {
        return pins.size();
    }

    /** The pins of a cell's site. */
    List<SitePin> of(int cell) {
        return pins.get(cell);
    }

    /** The vertex of a pin of a cell's site. */
    int vertex(int cell, int pin) {
        return firstPins.getInt(cell) + pin;
    }

    /** The place of a pin among those of its cell's site. */
    int find(int cell, String name) throws IOException {
        int pin = SitePin.find(pins.get(cell), name);
        Damaged.unless(pin != Fabric.NOTHING, "a pin that its site does not have");
        return pin;
    }
}
