package padward.ui.paint;

import padward.ui.draw.Surface;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapScene;

/**
 * All switches of one wire or pin in the boxes in view, where the map shows their inside.
 *
 * @param vertex the wire or pin
 */
public record SwitchesOfWire(int vertex) implements MapOverlay {
    @Override
    public void paint(MapScene scene, Surface out) {
        new BoxPainter(scene, out).paintSwitchesOf(vertex);
    }
}
