package padward.ui.scene;

import java.util.EnumSet;
import java.util.Set;

/** What the map can show or leave out. Fabric, pads and the selection are always there. */
public enum Layer {
    OCCUPANCY("Occupancy", "Digit1", true, "What cells and nets hold, and how full tiles are"),
    TREE("The net's own wires", "Digit2", true, "Where the net of the question is already"),
    WAY("The way", "Digit3", true, "The way out that the answer tells"),
    ALTERNATIVES("Other ways", "Digit4", true, "Ways of other clearances, dashed"),
    OBSTACLES("Obstacles", "Digit5", true, "What stands on the way, hatched"),
    FRONTIER(
            "Frontier of the search",
            "Digit6",
            false,
            "How far a search from the net, quickest first, has come when it meets the pad;"
                    + " where no free way leads there, all that it can meet"),
    DELAY(
            "Delay from the net",
            "Digit7",
            false,
            "How far the signal gets in what time, over wires that are free");

    private final String label;
    private final String key;
    private final boolean shownAtFirst;
    private final String what;

    Layer(String label, String key, boolean shownAtFirst, String what) {
        this.label = label;
        this.key = key;
        this.shownAtFirst = shownAtFirst;
        this.what = what;
    }

    /** What stands in the menu. */
    public String label() {
        return label;
    }

    /** The key that shows and hides it while the map has the focus. */
    public String key() {
        return key;
    }

    /** The key as people read it. */
    public String keyText() {
        return key.substring(key.length() - 1);
    }

    /** What the map shows at first. */
    public static Set<Layer> shownFirst() {
        Set<Layer> result = EnumSet.noneOf(Layer.class);
        for (Layer layer : values()) {
            if (layer.shownAtFirst) {
                result.add(layer);
            }
        }
        return result;
    }

    /** What it shows, for a tooltip. */
    public String what() {
        return what;
    }
}
