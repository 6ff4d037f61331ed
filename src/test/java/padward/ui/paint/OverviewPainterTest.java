package padward.ui.paint;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javafx.geometry.Rectangle2D;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;

/** The overview is in a corner where it covers no pad, or nowhere. */
class OverviewPainterTest {
    private static final int WIDTH = 640;
    private static final int HEIGHT = 420;
    private static final Pattern FRAME =
            Pattern.compile(
                    "<rect x=\"([-\\d.]+)\" y=\"([-\\d.]+)\" width=\"([\\d.]+)\""
                            + " height=\"([\\d.]+)\"");

    @Test
    void itNeverLiesOnAPad() throws Exception {
        OpenDesign opened =
                new OpenDesign(
                        DesignReader.read(
                                Path.of("fixtures/small/only.design.json"), Progress.NONE));
        int painted = 0;
        for (double scale : new double[] {30, 60, 90, 150, 300}) {
            for (double x = -1; x <= 9; x += 0.5) {
                for (double y = -1; y <= 9; y += 0.5) {
                    Viewport view = new Viewport(WIDTH, HEIGHT, x, y, scale);
                    SvgSurface out = new SvgSurface(WIDTH, HEIGHT, "map");
                    new OverviewPainter(MapPicture.plain(opened, view, Palette.LIGHT), out).paint();
                    String svg = out.finish();
                    Matcher frame = FRAME.matcher(svg);
                    while (frame.find()) {
                        double wide = Double.parseDouble(frame.group(3));
                        if (wide < WIDTH) {
                            painted++;
                            check(opened, view, frame, wide);
                        }
                    }
                }
            }
        }
        assertThat(painted).isGreaterThan(500);
    }

    private static void check(OpenDesign opened, Viewport view, Matcher frame, double wide) {
        Rectangle2D at =
                new Rectangle2D(
                        Double.parseDouble(frame.group(1)),
                        Double.parseDouble(frame.group(2)),
                        wide,
                        Double.parseDouble(frame.group(4)));
        assertThat(at.getMinX()).isBetween(0.0, WIDTH - wide);
        int pads = opened.design().fabric().pads().size();
        for (int pad = 0; pad < pads; pad++) {
            TileLayout.Box pill = opened.layout().pad(pad);
            Rectangle2D shown =
                    new Rectangle2D(
                            view.screenX(pill.x()),
                            view.screenY(pill.y() + pill.height()),
                            pill.width() * view.scale(),
                            pill.height() * view.scale());
            assertThat(at.intersects(shown)).as(view + ", pad " + pad).isFalse();
        }
    }
}
