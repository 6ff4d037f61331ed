package padward.ui.scene;

import java.util.List;
import javafx.geometry.Rectangle2D;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;

/**
 * Several overlays as one, the first at the bottom.
 *
 * @param all the overlays
 */
record Overlays(List<MapOverlay> all) implements MapOverlay {
    Overlays {
        all = List.copyOf(all);
    }

    @Override
    public void paint(MapScene scene, Surface out) {
        all.forEach(o -> o.paint(scene, out));
    }

    @Override
    public void paintTags(MapScene scene, Surface out) {
        all.forEach(o -> o.paintTags(scene, out));
    }

    @Override
    public List<Rectangle2D> taken(MapScene scene) {
        return all.stream().flatMap(o -> o.taken(scene).stream()).toList();
    }

    @Override
    public void tint(MapScene scene, Surface out) {
        all.forEach(o -> o.tint(scene, out));
    }

    @Override
    public List<LegendEntry> legend(Palette colors) {
        return all.stream().flatMap(o -> o.legend(colors).stream()).toList();
    }
}
