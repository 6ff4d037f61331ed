package padward.ui.scene;

import padward.ui.draw.Surface;

/** Something painted over the map, for as long as a view wants it there. */
public interface Overlay {
    /** Paints what stands out, over everything of the map's own. */
    void paint(MapScene scene, Surface out);

    /** Paints what tints the ground, under all else; nothing, unless it has such. */
    default void tint(MapScene scene, Surface out) {}
}
