package padward.ui;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.text.Text;
import javafx.stage.Stage;
import padward.base.BadInput;
import padward.design.Design;
import padward.format.Demo;
import padward.ui.control.Themes;
import padward.ui.map.FirstView;
import padward.ui.map.MapModel;
import padward.ui.model.Background;
import padward.ui.model.ExplorerModel;
import padward.ui.model.KeptJournals;
import padward.ui.model.KeptStore;
import padward.ui.model.Session;
import padward.ui.model.SessionKeeper;
import padward.ui.model.Settings;
import padward.ui.scene.Opened;

/** The window program. */
public final class PadwardApp extends Application {
    private static final double WIDTH = 1280;
    private static final double HEIGHT = 800;

    /** What was begun before the toolkit was there; it makes the application, so it is static. */
    private static CompletableFuture<Begun> begun = new CompletableFuture<>();

    private static Later waiting = new Later();

    /**
     * What does not need a toolkit.
     *
     * @param model the window's model
     * @param keeper remembers the session
     * @param store remembers what is kept
     */
    record Begun(ExplorerModel model, SessionKeeper keeper, KeptStore store) {}

    /** What kept the window from being built. */
    private static Optional<Throwable> trouble = Optional.empty();

    /**
     * Opens the window and returns when it is closed. The design is read while the toolkit starts.
     *
     * @return what keeps the window from opening on this machine; empty when it was opened
     */
    public static Optional<String> launchWindow(Optional<Path> design) {
        Later later = new Later();
        waiting = later;
        begun =
                CompletableFuture.supplyAsync(
                        () -> begin(Background.threaded(later), Settings.folder(), design));
        try {
            Application.launch(PadwardApp.class);
        } catch (RuntimeException | LinkageError fault) {
            trouble = Optional.of(fault);
        }
        Optional<String> told = trouble.flatMap(StartTrouble::of);
        if (trouble.isPresent() && told.isEmpty()) {
            throw new IllegalStateException("the window could not be opened", trouble.get());
        }
        return told;
    }

    @Override
    public void start(Stage stage) {
        Begun prepared = begun.join();
        waiting.begin();
        show(stage, prepared);
    }

    /**
     * Opens what was open the last time, unless a design is asked for; the demo when there is
     * nothing else.
     *
     * @param settings the folder that remembers
     */
    static Begun begin(Background background, Path settings, Optional<Path> asked) {
        KeptStore store = new KeptJournals(settings.resolve("kept"));
        ExplorerModel model = new ExplorerModel(background, store);
        SessionKeeper keeper = new SessionKeeper(model, settings.resolve("session.json"));
        Session session = keeper.read();
        keeper.begin(session);
        if (asked.isPresent()) {
            model.open(asked.get());
        } else if (!keeper.reopen(session)) {
            model.openFrom(progress -> Demo.open());
        }
        return new Begun(model, keeper, store);
    }

    /** Shows the map first, the whole window as soon as it is built. */
    static void show(Stage stage, Begun begun) {
        ExplorerModel model = begun.model();
        MapModel map = new MapModel(model);
        FirstView first =
                new FirstView(
                        map,
                        WIDTH,
                        HEIGHT,
                        () -> {
                            try {
                                showAll(stage, begun, map);
                            } catch (LinkageError fault) {
                                trouble = Optional.of(fault);
                                Platform.exit();
                            }
                        });
        show(stage, model, first);
        stage.setOnHidden(
                e -> {
                    begun.keeper().close();
                    close(begun.store());
                });
        first.begin();
    }

    private static void showAll(Stage stage, Begun begun, MapModel map) {
        // Where the text engine lacks its library, this fails here and not in some later frame.
        new Text("Padward").prefWidth(-1);
        Application.setUserAgentStylesheet(sheet(begun.model()));
        MainView view = new MainView(map);
        begun.keeper().follow(view::place);
        stage.getScene().setRoot(view);
        view.lookup("#net-field").requestFocus();
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
        Application.setUserAgentStylesheet(sheet(model));
        show(stage, model, new MainView(new MapModel(model)));
        return model;
    }

    private static String sheet(ExplorerModel model) {
        return Themes.sheet(model.look().darkProperty().get());
    }

    private static void show(Stage stage, ExplorerModel model, Parent root) {
        stage.setScene(new Scene(root, WIDTH, HEIGHT));
        tellTitle(stage, model);
        model.openedProperty().addListener((p, old, now) -> tellTitle(stage, model));
        stage.show();
    }

    private static void tellTitle(Stage stage, ExplorerModel model) {
        stage.setTitle(
                model.openedProperty()
                        .get()
                        .map(Opened::design)
                        .map(Design::name)
                        .map(n -> "Padward — " + n)
                        .orElse("Padward"));
    }
}
