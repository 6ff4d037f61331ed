package padward.ui.scene;

import java.util.EnumSet;
import java.util.Set;

/** The layers that the map can show or hide. Fabric, pads and the selection are always shown. */
public enum MapLayer {
    OCCUPANCY("Occupancy", "Digit1", true, "What cells and nets use, and how full tiles are"),
    TREE("The net's own wires", "Digit2", true, "Wires that the net of the question already uses"),
    ROUTE("The route", "Digit3", true, "The route of the answer"),
    ALTERNATIVES("Other routes", "Digit4", true, "Routes of the other options to unblock, dashed"),
    OBSTACLES("Obstacles", "Digit5", true, "What blocks the route, hatched"),
    FRONTIER(
            "Search frontier",
            "Digit6",
            false,
            "How far a search from the net has come when it reaches the pad; if no free route"
                    + " leads there, everything that it can reach"),
    DELAY(
            "Delay from the net",
            "Digit7",
            false,
            "How long the signal takes to get to each tile over free wires"),
    LEGEND("Legend", "Digit8", false, "What the marks on the map mean"),
    RULERS("Rulers", "Digit9", false, "Columns and rows of tiles, along the edges of the map"),
    QUESTIONS(
            "Routes of all questions",
            "Q",
            true,
            "Routes of the other open questions, and of the group, each with its own mark"),
    OVERVIEW(
            "Overview",
            "O",
            true,
            "The whole fabric in a corner, with the part that the map shows; a click goes there");

    private final String label;
    private final String key;
    private final boolean shownAtFirst;
    private final String what;

    MapLayer(String label, String key, boolean shownAtFirst, String what) {
        this.label = label;
        this.key = key;
        this.shownAtFirst = shownAtFirst;
        this.what = what;
    }

    /** The text in the menu. */
    public String label() {
        return label;
    }

    /** The key that shows and hides it while the map has the focus. */
    public String key() {
        return key;
    }

    /** The key as shown to users. */
    public String keyText() {
        return key.substring(key.length() - 1);
    }

    /** The layers shown at the start. */
    public static Set<MapLayer> shownFirst() {
        Set<MapLayer> result = EnumSet.noneOf(MapLayer.class);
        for (MapLayer layer : values()) {
            if (layer.shownAtFirst) {
                result.add(layer);
            }
        }
        return result;
    }

    /** What the layer shows, for a tooltip. */
    public String what() {
        return what;
    }
}
