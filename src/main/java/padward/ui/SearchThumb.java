package padward.ui;

import javafx.scene.canvas.Canvas;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.layout.Region;
import padward.lesson.Replay;

/** A search at one moment, on the whole fabric, small: settled dots, the frontier around them. */
final class SearchThumb extends Region {
    private static final double HEIGHT = 150;

    private final Canvas canvas = new Canvas(10, HEIGHT);
    private Runnable painting = () -> {};

    SearchThumb(String what) {
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
    void show(Opened opened, Replay replay, Palette colors) {
        painting = () -> paint(opened, replay, colors);
        painting.run();
    }

    /** Shows nothing. */
    void clear() {
        painting = () -> {};
        canvas.getGraphicsContext2D().clearRect(0, 0, canvas.getWidth(), HEIGHT);
    }

    private void paint(Opened opened, Replay replay, Palette colors) {
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
        double r = Math.max(1, Math.min(2.5, view.scale() / 6));
        TileLayout layout = opened.layout();
        replay.forReached(
                step -> {
                    TileLayout.Point at = layout.end(step.vertex());
                    double x = view.screenX(at.x());
                    double y = view.screenY(at.y());
                    if (replay.isSettled(step.vertex())) {
                        g.setFill(colors.delayLine());
                        g.fillOval(x - r, y - r, 2 * r, 2 * r);
                    } else {
                        g.setStroke(colors.frontier());
                        g.strokeOval(x - r, y - r, 2 * r, 2 * r);
                    }
                });
        TileLayout.Point goal = layout.end(replay.recording().goal());
        g.setStroke(colors.selection());
        g.setLineWidth(2);
        g.strokeOval(view.screenX(goal.x()) - 5, view.screenY(goal.y()) - 5, 10, 10);
    }
}
