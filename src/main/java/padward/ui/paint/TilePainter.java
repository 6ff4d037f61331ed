package padward.ui.paint;

import javafx.scene.paint.Color;
import padward.fabric.Fabric;
import padward.ui.design.TileRange;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/**
 * Paints the tiles themselves: rim, kinds and, zoomed out, how full they are; tinted by delay if
 * that layer is shown.
 */
final class TilePainter {
    private static final double GAP = 1;

    /** How far the middle of a tile's name is above the lower rim of the tile, tiles. */
    private static final double ABOVE_RIM = 0.08;

    /** A column in which there are sites and the tile's name, from the tile's left rim, tiles. */
    private static final double WITHIN_NAME = 0.6;

    private final MapScene scene;
    private final Surface out;
    private final Fabric fabric;
    private final TileColors colors;

    TilePainter(MapScene scene, Surface out) {
        this.scene = scene;
        this.out = out;
        this.fabric = scene.opened().design().fabric();
        this.colors = new TileColors(scene.opened(), scene.palette(), false, scene.bands());
    }

    void paint(TileRange seen) {
        Viewport view = scene.view();
        out.fillRect(0, 0, view.width(), view.height(), 0, scene.palette().paper());
        if (scene.scale() < ZoomScales.PARTS) {
            double x = view.screenX(0);
            double y = view.screenY(fabric.rows());
            double w = fabric.columns() * scene.scale();
            double h = fabric.rows() * scene.scale();
            out.cells(scene.cells(), x, y, w, h);
            out.outlineRect(x, y, w, h, 0, new Surface.Line(scene.palette().box(), 1));
        } else {
            seen.forEach(this::paintTile);
        }
    }

    private void paintTile(int tile) {
        Viewport view = scene.view();
        double x = Math.round(view.screenX(fabric.column(tile)));
        double y = Math.round(view.screenY(fabric.row(tile) + 1.0));
        double right = Math.round(view.screenX(fabric.column(tile) + 1.0));
        double bottom = Math.round(view.screenY(fabric.row(tile)));
        out.fillRect(x, y, right - x - GAP, bottom - y - GAP, 0, colors.of(tile));
    }

    /** Paints names of tiles and kinds, where there is room. */
    void names(TileRange seen) {
        if (scene.scale() >= ZoomScales.KINDS) {
            seen.forEach(this::name);
        }
    }

    /**
     * Placed where neither channels nor sites are: at the lower right, on the rim in the middle.
     */
    private void name(int tile) {
        boolean near = scene.scale() >= ZoomScales.NAMES;
        int column = fabric.column(tile);
        boolean rim = scene.opened().layout().isRim(tile);
        if (rim && !near) {
            return;
        }
        boolean atSide = column == 0 || column == fabric.columns() - 1;
        double x = scene.view().screenX(column + (rim && atSide ? 0.36 : 0.46));
        double y = scene.view().screenY(fabric.row(tile) + (rim ? 0.5 : ABOVE_RIM));
        boolean inView =
                x > -scene.scale()
                        && y > 0
                        && x < scene.view().width()
                        && y < scene.view().height();
        if (inView) {
            double size = scene.letters(near ? SitePainter.fontSize(scene.scale()) : 9);
            // Faint letters would be illegible on a tint.
            Color color =
                    scene.bands().isPresent() ? scene.palette().ink() : scene.palette().faint();
            String kind = fabric.tileType(tile);
            String text = near ? fabric.tileName(tile) + " " + kind : kind;
            int room = Surface.Lettering.room(0.52 * scene.scale(), size);
            // Part of a kind's name is useless.
            String shown = near ? SitePainter.shortened(text, room) : text;
            if (shown.length() > room) {
                return;
            }
            if (isOnSite(tile)) {
                double wide = Surface.Lettering.width(shown, size) + size / 2;
                out.fillRect(
                        x - size / 4, y - 0.7 * size, wide, 1.4 * size, size / 2, colors.of(tile));
            }
            out.text(shown, x, y, new Surface.Lettering(size, Surface.Align.LEFT, color));
        }
    }

    /** Whether a site of several tiles is where the tile's name is. */
    private boolean isOnSite(int tile) {
        if (!fabric.hasWideSites()) {
            return false;
        }
        boolean[] found = new boolean[1];
        int column = fabric.column(tile);
        int row = fabric.row(tile);
        scene.opened()
                .layout()
                .forEachSite(
                        TileRange.of(fabric, column, column, row, row),
                        (site, box) ->
                                found[0] |= box.contains(column + WITHIN_NAME, row + ABOVE_RIM));
        return found[0];
    }
}
