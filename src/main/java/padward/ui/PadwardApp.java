package padward.ui;

import java.nio.file.Path;
import java.util.Optional;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.stage.Stage;
import padward.design.Design;
import padward.format.Demo;

/** The window program. */
public final class PadwardApp extends Application {
    private static final double WIDTH = 1280;
    private static final double HEIGHT = 800;

    /** Opens the window and returns when it is closed. */
    public static void launchWindow(Optional<Path> design) {
        Application.launch(
                PadwardApp.class,
                design.map(p -> new String[] {p.toString()}).orElse(new String[0]));
    }

    @Override
    public void start(Stage stage) {
        ExplorerModel model = show(stage, Background.threaded(Platform::runLater));
        if (getParameters().getRaw().isEmpty()) {
            model.openFrom(progress -> Demo.open());
        } else {
            model.open(Path.of(getParameters().getRaw().get(0)));
        }
    }

    /** Fills a stage and shows it; the model that it shows. */
    static ExplorerModel show(Stage stage, Background background) {
        Application.setUserAgentStylesheet(Themes.sheet(false));
        ExplorerModel model = new ExplorerModel(background);
        stage.setScene(new Scene(new MainView(model), WIDTH, HEIGHT));
        stage.setTitle("Padward");
        model.openedProperty()
                .addListener(
                        (p, old, now) ->
                                stage.setTitle(
                                        now.map(Opened::design)
                                                .map(Design::name)
                                                .map(n -> "Padward — " + n)
                                                .orElse("Padward")));
        stage.show();
        return model;
    }
}
