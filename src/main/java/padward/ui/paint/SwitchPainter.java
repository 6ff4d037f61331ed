package padward.ui.paint;

import java.util.Optional;
import padward.design.Net;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.ui.draw.Marks;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.Viewport;
import padward.ui.scene.Layer;
import padward.ui.scene.MapScene;
import padward.ui.scene.Scales;
import padward.ui.scene.TileIndex;
import padward.ui.scene.TileLayout;
import padward.ui.scene.TileRange;
import padward.ui.scene.TreeParents;

/**
 * Paints the switches of boxes, and what leads between a box and its pins: the ones that nets use
 * where wires are seen, all of them from nearer.
 */
final class SwitchPainter {
    private final MapScene scene;
    private final Marks marks;
    private final Fabric fabric;

    SwitchPainter(MapScene scene, Marks marks) {
        this.scene = scene;
        this.marks = marks;
        this.fabric = scene.opened().design().fabric();
    }

    void paint(TileRange seen) {
        Palette colors = scene.palette();
        if (scene.scale() >= Scales.SWITCHES) {
            int free = Raster.pixel(colors.tile().interpolate(colors.box(), 0.28));
            EdgeCursor into = fabric.edgesIn();
            seen.forEach(tile -> paintAll(tile, into, free));
        }
        if (scene.scale() >= Scales.NAMES && scene.shows(Layer.OCCUPANCY)) {
            int held = Raster.pixel(colors.heldStrong());
            seen.forEach(tile -> paintUsed(tile, held));
        }
    }

    private void paintAll(int tile, EdgeCursor into, int pixel) {
        TileIndex index = scene.opened().index();
        for (int i = index.first(tile); i < index.first(tile + 1); i++) {
            int vertex = index.vertex(i);
            into.reset(vertex);
            while (into.next()) {
                if (into.kind() != EdgeKind.THROUGH) {
                    connection(into.other(), vertex, 1, pixel);
                }
            }
        }
    }

    private void paintUsed(int tile, int pixel) {
        TileIndex index = scene.opened().index();
        TreeParents parents = scene.opened().parents();
        for (int i = index.first(tile); i < index.first(tile + 1); i++) {
            int vertex = index.vertex(i);
            Optional<Net> net = scene.opened().design().occupancy().findNetOn(vertex);
            int parent = net.map(n -> parents.parent(n, vertex)).orElse(Fabric.NOTHING);
            if (parent != Fabric.NOTHING) {
                connection(parent, vertex, 2, pixel);
            }
        }
    }

    private void connection(int from, int to, int wide, int pixel) {
        TileLayout layout = scene.opened().layout();
        TileLayout.Point one = layout.end(from);
        TileLayout.Point other = layout.start(to);
        Viewport view = scene.view();
        marks.line(
                view.screenX(one.x()),
                view.screenY(one.y()),
                view.screenX(other.x()),
                view.screenY(other.y()),
                wide,
                pixel);
    }
}
