package padward.ui.paint;

import javafx.scene.paint.Color;
import padward.fabric.Fabric;
import padward.ui.design.ChannelFill;
import padward.ui.design.TileIndex;
import padward.ui.design.TileLayout;
import padward.ui.design.TileRange;
import padward.ui.draw.Marks;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Paints how full the channels between boxes are, where single wires would be too many: each
 * channel is a bar whose inner part is as wide as the share of its wires that nets use.
 */
final class ChannelPainter {
    private static final double WIDTH = 1.5 * TileLayout.BOX_RADIUS;

    private final MapScene scene;
    private final Marks marks;

    ChannelPainter(MapScene scene, Marks marks) {
        this.scene = scene;
        this.marks = marks;
    }

    void paint(TileRange seen) {
        if (scene.scale() < ZoomScales.PARTS || scene.scale() >= ZoomScales.WIRES) {
            return;
        }
        Palette colors = scene.palette();
        Color free = colors.tile().interpolate(colors.box(), 0.28);
        seen.forEach(tile -> paintTile(tile, Raster.pixel(free), Raster.pixel(scene.usedWires())));
    }

    private void paintTile(int tile, int free, int used) {
        Fabric fabric = scene.opened().design().fabric();
        Viewport view = scene.view();
        TileIndex index = scene.opened().index();
        if (index.isEmpty(tile)) {
            return;
        }
        TileLayout.Point box = scene.opened().layout().box(tile);
        ChannelFill fill = scene.opened().fill();
        boolean shown = scene.shows(MapLayer.OCCUPANCY);
        double x = view.screenX(box.x());
        double y = view.screenY(box.y());
        double wide = Math.max(3, WIDTH * view.scale());
        if (fabric.column(tile) < fabric.columns() - 1 && !index.isEmpty(tile + 1)) {
            double far = view.screenX(scene.opened().layout().box(tile + 1).x());
            bar(x, y - wide / 2, far - x, wide, free);
            double part = shown ? wide * fill.across(tile) : 0;
            bar(x, y - part / 2, far - x, part, used);
        }
        int above = tile + fabric.columns();
        if (fabric.row(tile) < fabric.rows() - 1 && !index.isEmpty(above)) {
            double far = view.screenY(scene.opened().layout().box(above).y());
            bar(x - wide / 2, far, wide, y - far, free);
            double part = shown ? wide * fill.along(tile) : 0;
            bar(x - part / 2, far, part, y - far, used);
        }
    }

    private void bar(double x, double y, double w, double h, int pixel) {
        if (w >= 0.5 && h >= 0.5) {
            marks.box(x, y, w, h, 0, pixel, pixel);
        }
    }
}
