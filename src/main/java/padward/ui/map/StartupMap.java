package padward.ui.map;

import java.util.Optional;
import javafx.animation.AnimationTimer;
import javafx.scene.canvas.Canvas;
import javafx.scene.layout.Pane;
import javafx.stage.Screen;
import padward.ui.design.OpenDesign;
import padward.ui.draw.CanvasSurface;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.Viewport;
import padward.ui.model.Session;
import padward.ui.model.StartupLoader;
import padward.ui.paint.FabricFit;
import padward.ui.paint.MapPicture;
import padward.ui.scene.MapScene;
import padward.ui.work.PrefetchTask;

/**
 * What the window shows until its controls are ready: the map alone, about where it will be. A
 * canvas needs no style sheets, so it can be shown as soon as the toolkit and the design are there;
 * building all the controls takes longer than both.
 */
public final class StartupMap extends Pane {
    /** Frames after which a painted picture is certainly on the screen. */
    private static final int FRAMES = 3;

    /** How long to wait for a design to open. */
    private static final long PATIENCE_NANOS = 300_000_000;

    private static final double MAP_TOP = 141;
    private static final double MAP_SHARE = 0.62;
    private static final double BELOW_MAP = 166;

    private final Palette palette;
    private final Runnable then;
    private final PrefetchTask<Canvas> picture;

    /**
     * Begins to paint on a thread of its own, while the window is being created; allowed because
     * the canvas is not yet part of a scene.
     *
     * @param then runs once the picture is shown, or when it takes too long
     */
    public StartupMap(StartupLoader prelude, double width, double height, Runnable then) {
        this.palette = prelude.session().dark() ? Palette.DARK : Palette.LIGHT;
        this.then = then;
        Canvas canvas =
                new Canvas(
                        Math.floor(width * MAP_SHARE), Math.max(1, height - MAP_TOP - BELOW_MAP));
        canvas.setLayoutY(MAP_TOP);
        double density = Math.max(1, Screen.getPrimary().getOutputScaleX());
        this.picture =
                new PrefetchTask<>(
                        progress -> {
                            paint(canvas, prelude.awaitDesign(), prelude.place(), density);
                            return canvas;
                        });
    }

    /** Whether the design has been painted. */
    public boolean isPainted() {
        return !getChildren().isEmpty();
    }

    /** Shows the picture when it is ready, then goes on. */
    public void begin() {
        // Not a style, which would load the machinery for style sheets.
        getScene().setFill(palette.paper());
        long begin = System.nanoTime();
        showPicture();
        new AnimationTimer() {
            private int frames;

            @Override
            public void handle(long now) {
                if (isPainted()) {
                    frames++;
                } else {
                    showPicture();
                }
                if (frames == FRAMES
                        || !isPainted() && System.nanoTime() - begin > PATIENCE_NANOS) {
                    stop();
                    then.run();
                }
            }
        }.start();
    }

    private void showPicture() {
        picture.findResult().ifPresent(getChildren()::add);
    }

    private void paint(
            Canvas canvas, OpenDesign opened, Optional<Session.Place> place, double density) {
        double width = canvas.getWidth();
        double height = canvas.getHeight();
        MapScene scene = MapPicture.plain(opened, new Viewport(width, height, 0, 0, 40), palette);
        Viewport all =
                FabricFit.in(
                        scene, ViewTargets.of(opened.design().fabric()), MapNavigation.NEAREST_FIT);
        Viewport view = place.map(p -> all.centredOn(p.x(), p.y()).atScale(p.scale())).orElse(all);
        MapPicture.paint(
                scene.seenIn(view),
                new CanvasSurface(
                        canvas.getGraphicsContext2D(), new Raster(width, height, density)));
    }
}
