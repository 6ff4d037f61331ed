package padward.ui;

import java.nio.file.Path;
import java.util.Optional;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.stage.Stage;
import padward.base.BadInput;
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
        Optional<Path> asked = getParameters().getRaw().stream().findFirst().map(Path::of);
        start(stage, Background.threaded(Platform::runLater), Settings.folder(), asked);
    }

    /**
     * Shows the window as it was left the last time, with what was open, unless a design is asked
     * for; the demo when there is nothing else.
     *
     * @param settings the folder that remembers
     */
    static ExplorerModel start(
            Stage stage, Background background, Path settings, Optional<Path> asked) {
        KeptStore store = new KeptJournals(settings.resolve("kept"));
        ExplorerModel model = new ExplorerModel(background, store);
        MainView view = new MainView(model);
        SessionKeeper keeper =
                new SessionKeeper(model, settings.resolve("session.json"), view::place);
        Session session = keeper.read();
        keeper.begin(session);
        show(stage, model, view);
        stage.setOnHidden(
                e -> {
                    keeper.close();
                    close(store);
                });
        if (asked.isPresent()) {
            model.open(asked.get());
        } else if (!keeper.reopen(session, view::goTo)) {
            model.openFrom(progress -> Demo.open());
        }
        return model;
    }

    private static void close(KeptStore store) {
        try {
            store.close();
        } catch (BadInput ignored) {
            // The window is gone; what is kept was written down when it was kept.
        }
    }

    /** Fills a stage and shows it, with nothing open and nothing remembered. */
    static ExplorerModel show(Stage stage, Background background) {
        ExplorerModel model = new ExplorerModel(background);
        show(stage, model, new MainView(model));
        return model;
    }

    private static void show(Stage stage, ExplorerModel model, MainView view) {
        Application.setUserAgentStylesheet(Themes.sheet(model.look().darkProperty().get()));
        stage.setScene(new Scene(view, WIDTH, HEIGHT));
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
    }
}
