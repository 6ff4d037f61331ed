package padward.ui.export;

import java.io.IOException;
import java.io.OutputStream;
import java.util.Optional;
import java.util.function.Consumer;
import javafx.embed.swing.SwingFXUtils;
import javafx.scene.SnapshotParameters;
import javafx.scene.canvas.Canvas;
import javafx.scene.image.WritableImage;
import javafx.scene.transform.Transform;
import javax.imageio.ImageIO;
import padward.ui.draw.CanvasSurface;
import padward.ui.draw.Raster;
import padward.ui.draw.Surface;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.paint.PrintedMap;
import padward.ui.paint.StripPainter;
import padward.ui.scene.MapScene;
import padward.ui.scene.StripLayout;
import padward.ui.scene.StripScene;

/**
 * Pictures of the map and the strip map for files, made by the painters of the screen. Scenes are
 * values, so SVG can be written on any thread; a canvas, and so PNG, needs the UI thread.
 */
final class Pictures {
    /** Pixels of a PNG per pixel of the screen, in each direction: enough for print. */
    static final double FINER = 2;

    private Pictures() {}

    /** The map as SVG. */
    static String mapSvg(MapScene scene) {
        PrintedMap map = new PrintedMap(scene);
        String design = scene.opened().design().name();
        SvgSurface out = new SvgSurface(map.width(), map.height(), "Fabric map of " + design);
        map.paint(out);
        return out.finish();
    }

    /** The map as an image with twice the pixels in both directions. UI thread. */
    static WritableImage mapImage(MapScene scene) {
        Viewport view = scene.view();
        // Dense parts are drawn pixel by pixel: they are drawn finer, not enlarged.
        Raster raster = new Raster(view.width(), view.height(), FINER);
        PrintedMap map = new PrintedMap(scene);
        return image(map.width(), map.height(), map::paint, raster);
    }

    /** The strip map as SVG, wide enough for all of it. */
    static String stripSvg(StripScene scene, double width) {
        Optional<StripLayout> layout = StripPainter.layout(scene, width);
        double height = StripPainter.height(scene.letters());
        SvgSurface out =
                new SvgSurface(StripPainter.width(scene, layout, width), height, "Strip map");
        new StripPainter(scene, out, height).paint(layout, width);
        return out.finish();
    }

    /** The strip map as an image. UI thread. */
    static WritableImage stripImage(StripScene scene, double width) {
        Optional<StripLayout> layout = StripPainter.layout(scene, width);
        double height = StripPainter.height(scene.letters());
        return image(
                StripPainter.width(scene, layout, width),
                height,
                surface -> new StripPainter(scene, surface, height).paint(layout, width),
                new Raster(1, 1));
    }

    private static WritableImage image(
            double width, double height, Consumer<Surface> painter, Raster raster) {
        Canvas canvas = new Canvas(width, height);
        painter.accept(new CanvasSurface(canvas.getGraphicsContext2D(), raster));
        SnapshotParameters finer = new SnapshotParameters();
        finer.setTransform(Transform.scale(FINER, FINER));
        return canvas.snapshot(finer, null);
    }

    /** Writes an image as PNG. */
    static void writePng(WritableImage image, OutputStream out) throws IOException {
        ImageIO.write(SwingFXUtils.fromFXImage(image, null), "png", out);
    }
}
