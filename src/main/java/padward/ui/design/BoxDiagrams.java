package padward.ui.design;

import it.unimi.dsi.fastutil.ints.Int2ObjectLinkedOpenHashMap;

/**
 * The diagrams of the boxes seen last, kept from frame to frame. They depend on the fabric alone.
 * Thread-safe.
 */
final class BoxDiagrams {
    /** More boxes are never in view at the scale at which diagrams are drawn. */
    private static final int MOST = 64;

    private final Int2ObjectLinkedOpenHashMap<BoxDiagram> byTile =
            new Int2ObjectLinkedOpenHashMap<>();

    synchronized BoxDiagram of(OpenDesign opened, int tile) {
        BoxDiagram known = byTile.getAndMoveToLast(tile);
        if (known != null) {
            return known;
        }
        BoxDiagram made = BoxDiagram.of(opened, tile);
        byTile.put(tile, made);
        if (byTile.size() > MOST) {
            byTile.removeFirst();
        }
        return made;
    }
}
