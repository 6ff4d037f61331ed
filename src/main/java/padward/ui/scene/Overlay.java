package padward.ui.scene;

import padward.ui.draw.Surface;

/** Something painted over the map, for as long as a view wants it there. */
public interface Overlay {
    /** Paints it. */
    void paint(MapScene scene, Surface out);
}
