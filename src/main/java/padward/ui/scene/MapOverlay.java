package padward.ui.scene;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Rectangle2D;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;

/** Something that another view paints over the map. */
public interface MapOverlay {
    /** Paints on top of everything else on the map. */
    void paint(MapScene scene, Surface out);

    /** Paints texts that must be read, above the legend too; does nothing by default. */
    default void paintTags(MapScene scene, Surface out) {}

    /** Where those texts are, in pixels; other texts keep away from there. None by default. */
    default List<Rectangle2D> taken(MapScene scene) {
        return List.of();
    }

    /** Tints the tiles, below everything else; does nothing by default. */
    default void tint(MapScene scene, Surface out) {}

    /** What its marks mean; nothing by default. */
    default List<LegendEntry> legend(Palette colors) {
        return List.of();
    }

    /** Several as one, painted in their order; empty for none. */
    static Optional<MapOverlay> together(List<MapOverlay> overlays) {
        return overlays.size() <= 1
                ? overlays.stream().findFirst()
                : Optional.of(new Overlays(overlays));
    }
}
