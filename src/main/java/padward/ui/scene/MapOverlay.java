package padward.ui.scene;

import padward.ui.draw.Surface;

/** Something that another view paints over the map. */
public interface MapOverlay {
    /** Paints on top of everything else on the map. */
    void paint(MapScene scene, Surface out);

    /** Tints the tiles, below everything else; does nothing by default. */
    default void tint(MapScene scene, Surface out) {}
}
