package padward.ui.play;

import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.layout.Region;
import padward.lesson.recording.RecordingReplay;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.Viewport;

/** A small picture of a search at one moment on the whole fabric: settled dots and the frontier. */
final class SearchThumbnail extends Region {
    private static final double HEIGHT = 150;

    private final Canvas canvas = new Canvas(10, HEIGHT);
    private Runnable painting = () -> {};

    SearchThumbnail(String what) {
        setMinSize(80, HEIGHT);
        setPrefHeight(HEIGHT);
        setMaxHeight(HEIGHT);
        setAccessibleText(what);
        getChildren().add(canvas);
        widthProperty()
                .addListener(
                        (p, old, now) -> {
                            canvas.setWidth(now.doubleValue());
                            painting.run();
                        });
    }

    /** Paints a moment. */
    void show(OpenDesign opened, RecordingReplay replay, Palette colors) {
        painting = () -> paint(opened, replay, colors);
        painting.run();
    }

    /** Clears the picture. */
    void clear() {
        painting = () -> {};
        canvas.getGraphicsContext2D().clearRect(0, 0, canvas.getWidth(), HEIGHT);
    }

    private void paint(OpenDesign opened, RecordingReplay replay, Palette colors) {
        int columns = opened.design().fabric().columns();
        int rows = opened.design().fabric().rows();
        Viewport view =
                new Viewport(canvas.getWidth(), HEIGHT, 1, 1, 1)
                        .fitted(-0.3, -0.3, columns + 0.3, rows + 0.3, 60);
        GraphicsContext g = canvas.getGraphicsContext2D();
        g.setFill(colors.paper());
        g.fillRect(0, 0, canvas.getWidth(), HEIGHT);
        g.setFill(colors.tile());
        g.fillRect(
                view.screenX(0), view.screenY(rows), columns * view.scale(), rows * view.scale());
        g.setStroke(colors.box());
        g.setLineWidth(1);
        g.strokeRect(
                view.screenX(0), view.screenY(rows), columns * view.scale(), rows * view.scale());
        TileLayout layout = opened.layout();
        Raster dots = new Raster((int) Math.ceil(canvas.getWidth()) + 1, (int) HEIGHT + 1);
        double r = Math.max(0.8, Math.min(2.5, view.scale() / 6));
        int settled = Raster.pixel(colors.delayLine());
        int waiting = Raster.pixel(colors.frontier());
        int paper = Raster.pixel(colors.paper());
        replay.forReachedVertices(
                vertex -> {
                    TileLayout.Point at = layout.end(vertex);
                    boolean done = replay.isSettled(vertex);
                    dots.disc(
                            view.screenX(at.x()),
                            view.screenY(at.y()),
                            r,
                            done ? settled : paper,
                            done ? settled : waiting);
                });
        g.drawImage(dots.image(), 0, 0);
        TileLayout.Point goal = layout.end(replay.recording().goal());
        g.setStroke(colors.selection());
        g.setLineWidth(2);
        g.strokeOval(view.screenX(goal.x()) - 5, view.screenY(goal.y()) - 5, 10, 10);
    }
}
