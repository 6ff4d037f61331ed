package padward.ui;

import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.stream.Collectors;
import javafx.embed.swing.SwingFXUtils;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import javax.imageio.ImageIO;
import org.testfx.api.FxRobot;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.control.Actions;
import padward.ui.control.LinkedText;
import padward.ui.export.Exports;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** A window with nothing open and nothing remembered, for tests of whatever it holds. */
public final class OpenWindow {
    private OpenWindow() {}

    /** Fills a stage and shows it; all work is done at once. */
    public static WindowModel show(Stage stage) {
        return PadwardApp.show(stage, BackgroundWork.immediate());
    }

    /** The same; work is done as a background does it. */
    public static WindowModel show(Stage stage, BackgroundWork background) {
        return PadwardApp.show(stage, background);
    }

    /** What can be done in the window that a stage shows. */
    public static Actions actions(Stage stage) {
        return view(stage).actions();
    }

    /** What the window that a stage shows can save. */
    public static Exports exports(Stage stage) {
        return view(stage).exports();
    }

    /** Asks in the window, and waits until its parts have heard of the answer. */
    public static void ask(FxRobot robot, WindowModel model, String net, String pad) {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(net);
                    model.shown().padTextProperty().set(pad);
                    model.shown().ask();
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    /** The answer that is shown, in full: its reasons, which this opens. */
    public static String reasons(FxRobot robot, WindowModel model) {
        robot.interact(() -> model.look().reasonsProperty().set(true));
        return robot.lookup("#answer-reasons").queryAs(VBox.class).getChildren().stream()
                .map(n -> ((LinkedText) n).text())
                .collect(Collectors.joining(" "));
    }

    /** Saves a picture of the window into the folder that the property {@code pictures} names. */
    public static void take(FxRobot robot, Stage stage, String name) throws Exception {
        for (int pulse = 0; pulse < 4; pulse++) {
            WaitForAsyncUtils.waitForFxEvents();
            Thread.sleep(80);
        }
        File file = new File(System.getProperty("pictures"), name + ".png");
        robot.interact(
                () -> {
                    try {
                        ImageIO.write(
                                SwingFXUtils.fromFXImage(stage.getScene().snapshot(null), null),
                                "png",
                                file);
                    } catch (IOException fault) {
                        throw new UncheckedIOException(fault);
                    }
                });
    }

    private static MainView view(Stage stage) {
        return (MainView) stage.getScene().getRoot();
    }
}
