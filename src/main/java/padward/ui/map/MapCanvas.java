package padward.ui.map;

import java.util.Optional;
import javafx.scene.canvas.GraphicsContext;
import padward.ui.design.OpenDesign;
import padward.ui.draw.CanvasSurface;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.Surface;
import padward.ui.draw.TileImage;
import padward.ui.draw.Viewport;
import padward.ui.paint.MapPicture;
import padward.ui.paint.TileColors;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;

/** Paints the map on a canvas, and keeps what does not change from frame to frame. */
final class MapCanvas {
    private static final double CROSS = 7;

    private final MapModel map;
    private Raster raster;
    private TileImage tiles;
    private TileColors imageColors;

    MapCanvas(MapModel map) {
        this.map = map;
    }

    /** The scene that is painted. */
    MapScene scene(OpenDesign opened, Viewport view, Palette palette) {
        TileColors colors =
                new TileColors(
                        opened,
                        palette,
                        map.options().shown(MapLayer.OCCUPANCY).get(),
                        map.options().shown(MapLayer.DELAY).get()
                                ? map.reachProperty().get()
                                : Optional.empty());
        if (tiles == null || !colors.isLike(imageColors)) {
            imageColors = colors;
            tiles = colors.toImage();
        }
        return map.scene(opened, view, palette, tiles);
    }

    /**
     * @param density screen pixels per pixel of the view
     * @param focused whether the map has the focus: it then shows a frame, and a cross in the
     *     middle
     */
    void paint(
            GraphicsContext g,
            OpenDesign opened,
            Viewport view,
            Palette palette,
            double density,
            boolean focused) {
        if (raster == null || !raster.isFor(view.width(), view.height(), density)) {
            raster = new Raster(view.width(), view.height(), density);
        }
        CanvasSurface out = new CanvasSurface(g, raster);
        MapScene scene = scene(opened, view, palette);
        MapPicture.paint(scene, out);
        MapPicture.paintOverview(scene, out);
        if (focused) {
            Surface.Line line = new Surface.Line(palette.selection(), 2);
            out.outlineRect(1, 1, view.width() - 2, view.height() - 2, 0, line);
            double x = view.width() / 2;
            double y = view.height() / 2;
            Surface.Line thin = new Surface.Line(palette.selection(), 1.5);
            out.line(x - CROSS, y, x + CROSS, y, thin);
            out.line(x, y - CROSS, x, y + CROSS, thin);
        }
    }
}
