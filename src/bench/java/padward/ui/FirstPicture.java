package padward.ui;

import javafx.animation.AnimationTimer;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.canvas.Canvas;
import javafx.scene.layout.Pane;
import javafx.scene.paint.Color;
import javafx.stage.Stage;
import javafx.stage.Window;

import padward.Main;
import padward.ui.map.StartupMap;

/**
 * A process that says when its first picture is shown, and ends then: a bare window with one
 * canvas, or the program on its demo. Both are observed alike: a thread asks the toolkit every few
 * milliseconds whether there is something to be seen, and lets two frames pass then, so that it has
 * been painted and shown.
 */
public final class FirstPicture {
    private static final int FRAMES = 2;
    private static volatile boolean seen;

    private FirstPicture() {}

    /** Starts one of the two: {@code bare} or {@code window}. */
    public static void main(String[] args) throws Exception {
        Thread watch = new Thread(FirstPicture::watch);
        watch.setDaemon(true);
        watch.start();
        if (args[0].equals("bare")) {
            Application.launch(Bare.class);
        } else {
            Main.main(new String[0]);
        }
    }

    private static void watch() {
        while (!seen) {
            try {
                Thread.sleep(4);
                Platform.runLater(FirstPicture::look);
            } catch (IllegalStateException notYet) {
                // The toolkit is still to start.
            } catch (InterruptedException stop) {
                return;
            }
        }
    }

    private static void look() {
        if (seen || Window.getWindows().isEmpty()) {
            return;
        }
        Scene scene = Window.getWindows().get(0).getScene();
        boolean there =
                scene != null
                        && (scene.getRoot() instanceof StartupMap first
                                ? first.isPainted()
                                : scene.getRoot() instanceof Pane);
        if (there) {
            seen = true;
            new AnimationTimer() {
                private int frames;

                @Override
                public void handle(long now) {
                    if (++frames == FRAMES) {
                        System.out.println("first picture");
                        System.out.flush();
                        Platform.exit();
                    }
                }
            }.start();
        }
    }

    /** A bare window with one canvas. */
    public static final class Bare extends Application {
        @Override
        public void start(Stage stage) {
            Canvas canvas = new Canvas(1280, 800);
            canvas.getGraphicsContext2D().setFill(Color.BISQUE);
            canvas.getGraphicsContext2D().fillRect(100, 100, 400, 300);
            stage.setScene(new Scene(new Pane(canvas)));
            stage.show();
        }
    }
}
