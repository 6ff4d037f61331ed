package padward.ui.paint;

import padward.fabric.Fabric;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;

/** Paints the numbers of columns along the lower edge and of rows along the right edge. */
final class RulerPainter {
    private static final double LETTERS = 10.5;

    /** Least distance of two numbers, pixels at the usual size of letters. */
    private static final double APART = 34;

    /** Width of the right ruler as a multiple of the height of the lower one. */
    static final double WIDER = 1.4;

    private static final int[] STEPS = {1, 2, 5, 10, 20, 50, 100, 200, 500, 1000};

    private final MapScene scene;
    private final Surface out;
    private final Viewport view;
    private final double size;
    private final double breadth;

    RulerPainter(MapScene scene, Surface out) {
        this.scene = scene;
        this.out = out;
        this.view = scene.view();
        this.size = scene.letters(LETTERS);
        this.breadth = breadth(scene);
    }

    /** Height of the lower ruler. */
    static double breadth(MapScene scene) {
        return scene.letters(LETTERS) * 1.6;
    }

    void paint() {
        if (!scene.shows(MapLayer.RULERS)) {
            return;
        }
        Palette colors = scene.palette();
        Fabric fabric = scene.opened().design().fabric();
        int step = step();
        double bottom = view.height() - breadth;
        double right = view.width() - breadth * WIDER;
        out.fillRect(0, bottom, view.width(), breadth, 0, colors.paper());
        out.fillRect(right, 0, breadth * WIDER, view.height(), 0, colors.paper());
        for (int column = 0; column < fabric.columns(); column += step) {
            double x = view.screenX(column + 0.5);
            if (x > 0 && x < right) {
                text("x" + column, x, bottom + breadth / 2);
            }
        }
        for (int row = 0; row < fabric.rows(); row += step) {
            double y = view.screenY(row + 0.5);
            if (y > 0 && y < bottom) {
                text("y" + row, right + breadth * 0.7, y);
            }
        }
    }

    private int step() {
        for (int step : STEPS) {
            if (step * view.scale() >= scene.letters(APART)) {
                return step;
            }
        }
        return STEPS[STEPS.length - 1] * 10;
    }

    private void text(String text, double x, double y) {
        out.text(
                text,
                x,
                y,
                new Surface.Lettering(size, Surface.Align.CENTER, scene.palette().ink()));
    }
}
