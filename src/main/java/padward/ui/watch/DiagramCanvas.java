package padward.ui.watch;

import java.util.Optional;
import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import padward.ui.draw.CanvasSurface;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.model.AppearanceModel;

/** The diagram of a circuit on a canvas of its size. */
final class DiagramCanvas extends Canvas {
    /** Larger canvases are not supported everywhere. */
    private static final double LARGEST = 4_096;

    /** Smaller letters are not legible. */
    private static final double SMALLEST = 0.85;

    private final AppearanceModel look;
    private double room;
    private Optional<CircuitDiagram> shown = Optional.empty();

    DiagramCanvas(AppearanceModel look) {
        this.look = look;
        setId("watch-diagram");
        look.darkProperty().addListener((p, old, now) -> paint());
        look.lettersProperty().addListener((p, old, now) -> paint());
        paint();
    }

    /** Shows another diagram, or none. */
    void show(Optional<CircuitDiagram> diagram) {
        shown = diagram;
        paint();
    }

    /** Shows it a little smaller where that makes it fit into a width. */
    void fit(double width) {
        room = width;
        paint();
    }

    private double scale() {
        double usual = look.lettersProperty().get();
        double fitting = shown.map(d -> room / (usual * d.width())).orElse(1.0);
        return fitting >= SMALLEST && fitting < 1 ? usual * fitting : usual;
    }

    private void paint() {
        double scale = scale();
        setWidth(shown.map(d -> Math.min(LARGEST, scale * d.width())).orElse(1.0));
        setHeight(shown.map(d -> Math.min(LARGEST, scale * d.height())).orElse(1.0));
        GraphicsContext g = getGraphicsContext2D();
        g.clearRect(0, 0, getWidth(), getHeight());
        Palette palette = look.darkProperty().get() ? Palette.DARK : Palette.LIGHT;
        shown.ifPresent(
                d ->
                        new DiagramPainter(d, palette, scale)
                                .paint(new CanvasSurface(g, new Raster(1, 1))));
    }
}
