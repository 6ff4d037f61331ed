package padward.ui.draw;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.function.IntUnaryOperator;
import javafx.scene.image.Image;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javax.imageio.ImageIO;
import padward.fabric.Fabric;

/** A picture of all tiles, one pixel each; created once, drawn at any scale. */
public final class TileImage {
    private final int columns;
    private final int rows;
    private final int[] pixels;
    private Image image;

    /**
     * @param pixelOfTile the opaque colour of each tile, as from {@link Raster#pixel}
     */
    public TileImage(Fabric fabric, IntUnaryOperator pixelOfTile) {
        columns = fabric.columns();
        rows = fabric.rows();
        pixels = new int[columns * rows];
        for (int tile = 0; tile < pixels.length; tile++) {
            int y = rows - 1 - fabric.row(tile);
            pixels[y * columns + fabric.column(tile)] = pixelOfTile.applyAsInt(tile);
        }
    }

    /** As a picture for a canvas. */
    Image image() {
        if (image == null) {
            WritableImage made = new WritableImage(columns, rows);
            made.getPixelWriter()
                    .setPixels(
                            0,
                            0,
                            columns,
                            rows,
                            PixelFormat.getIntArgbInstance(),
                            pixels,
                            0,
                            columns);
            image = made;
        }
        return image;
    }

    /** As a picture in the PNG format. */
    byte[] toPng() {
        BufferedImage made = new BufferedImage(columns, rows, BufferedImage.TYPE_INT_RGB);
        made.setRGB(0, 0, columns, rows, pixels, 0, columns);
        try (ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            ImageIO.write(made, "png", out);
            return out.toByteArray();
        } catch (IOException never) {
            throw new UncheckedIOException(never);
        }
    }
}
