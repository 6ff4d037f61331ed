import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.Path2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.file.Path;
import javax.imageio.ImageIO;

/**
 * Draws the program's icon: a chip with its pads, and one route from inside out to a pad. {@code
 * java src/image/DrawIcon.java src/main/resources/padward/ui/icon.png} writes it again.
 */
public final class DrawIcon {
    private static final int SIZE = 256;
    private static final Color CHIP = new Color(0x2b, 0x38, 0x44);
    private static final Color PAD = new Color(0xb8, 0xc2, 0xca);
    private static final Color ROUTE = new Color(0xe6, 0x9f, 0x00);

    private DrawIcon() {}

    /** Writes the picture to the file that the only argument names. */
    public static void main(String[] arguments) throws IOException {
        BufferedImage image = new BufferedImage(SIZE, SIZE, BufferedImage.TYPE_INT_ARGB);
        Graphics2D to = image.createGraphics();
        to.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        to.setColor(PAD);
        for (int i = 0; i < 4; i++) {
            int at = 56 + 40 * i;
            to.fillRect(at, 8, 24, 36);
            to.fillRect(at, 212, 24, 36);
            to.fillRect(8, at, 36, 24);
            if (i != 1) {
                to.fillRect(212, at, 36, 24);
            }
        }
        to.setColor(CHIP);
        to.fill(new RoundRectangle2D.Double(36, 36, 184, 184, 24, 24));
        to.setColor(ROUTE);
        to.fillRect(212, 96, 36, 24);
        to.setStroke(new BasicStroke(16, BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND));
        Path2D route = new Path2D.Double();
        route.moveTo(84, 164);
        route.lineTo(84, 132);
        route.lineTo(148, 132);
        route.lineTo(148, 108);
        route.lineTo(224, 108);
        to.draw(route);
        to.fillOval(66, 150, 36, 36);
        to.dispose();
        ImageIO.write(image, "png", Path.of(arguments[0]).toFile());
    }
}
