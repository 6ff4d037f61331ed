package padward.ui;

/** Something painted over the map, for as long as a view wants it there. */
interface Overlay {
    /** Paints it. */
    void paint(MapScene scene, Surface out);
}
