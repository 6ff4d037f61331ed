package padward.ui;

import javafx.scene.image.Image;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.paint.Color;
import padward.fabric.Fabric;

/** All tiles from afar, one pixel a tile, the fuller the darker: made once, drawn at any scale. */
final class Ground {
    private final WritableImage image;

    Ground(Opened opened, Palette palette) {
        Fabric fabric = opened.design().fabric();
        int columns = fabric.columns();
        int rows = fabric.rows();
        int[] pixels = new int[columns * rows];
        for (int tile = 0; tile < pixels.length; tile++) {
            int y = rows - 1 - fabric.row(tile);
            pixels[y * columns + fabric.column(tile)] = Raster.pixel(color(opened, palette, tile));
        }
        image = new WritableImage(columns, rows);
        image.getPixelWriter()
                .setPixels(
                        0, 0, columns, rows, PixelFormat.getIntArgbInstance(), pixels, 0, columns);
    }

    Image image() {
        return image;
    }

    private static Color color(Opened opened, Palette palette, int tile) {
        Color ground = opened.layout().isRim(tile) ? palette.rim() : palette.tile();
        double fill = opened.index().fill(tile);
        return ground.interpolate(palette.heldStrong(), Math.min(1, fill * 1.4));
    }
}
