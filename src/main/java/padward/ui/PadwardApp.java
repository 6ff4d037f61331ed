package padward.ui;

import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.Parent;
import javafx.scene.Scene;
import javafx.scene.image.Image;
import javafx.scene.text.Text;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.stage.Window;
import padward.design.Design;
import padward.format.source.UserFolder;
import padward.ui.control.Themes;
import padward.ui.design.OpenDesign;
import padward.ui.map.MapModel;
import padward.ui.map.StartupMap;
import padward.ui.model.Session;
import padward.ui.model.SessionKeeper;
import padward.ui.model.StartupLoader;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** The window program. */
public final class PadwardApp extends Application {
    private static final String NAME = "Padward";
    private static final double WIDTH = 1280;
    private static final double HEIGHT = 800;
    private static final double LEAST_WIDTH = 640;
    private static final double LEAST_HEIGHT = 480;

    /** What was started before the toolkit; static, because the toolkit creates the application. */
    private static CompletableFuture<StartupLoader> prelude = new CompletableFuture<>();

    /** The fault that kept the window from being built. */
    private static Optional<Throwable> trouble = Optional.empty();

    /**
     * Opens the window and returns when it is closed. The design is read while the toolkit starts.
     *
     * @return why the window cannot be opened on this machine; empty when it was opened
     * @throws IllegalStateException when a fault of the program itself is the reason
     */
    public static Optional<String> launchWindow(Optional<Path> design) {
        prelude =
                CompletableFuture.supplyAsync(() -> StartupLoader.begin(UserFolder.path(), design));
        try {
            Application.launch(PadwardApp.class);
        } catch (RuntimeException | LinkageError fault) {
            trouble = Optional.of(fault);
        }
        Optional<String> reason = trouble.flatMap(StartupFault::of);
        if (trouble.isPresent() && reason.isEmpty()) {
            throw new IllegalStateException("the window could not be opened", trouble.get());
        }
        return reason;
    }

    @Override
    public void start(Stage stage) {
        show(stage, prelude.join());
    }

    /** Shows the map first, and the whole window as soon as it is built. */
    static void show(Stage stage, StartupLoader prelude) {
        StartupMap first =
                new StartupMap(
                        prelude,
                        WIDTH,
                        HEIGHT,
                        () -> {
                            try {
                                showAll(stage, prelude);
                            } catch (RuntimeException | LinkageError fault) {
                                trouble = Optional.of(fault);
                                Platform.exit();
                            }
                        });
        stage.setTitle(NAME);
        show(stage, first);
        restore(stage, prelude.session().layout());
        stage.setOnHidden(e -> prelude.close());
        first.begin();
    }

    private static void showAll(Stage stage, StartupLoader prelude) {
        // If a library of the text engine is missing, this fails here and not in a later frame.
        new Text(NAME).prefWidth(-1);
        WindowModel model =
                new WindowModel(BackgroundWork.threaded(Platform::runLater), prelude.store());
        noteFaults(model);
        SessionKeeper keeper = prelude.goOn(model);
        Application.setUserAgentStylesheet(sheet(model));
        MainView view = new MainView(new MapModel(model));
        Session.Layout layout = prelude.session().layout();
        layout.mapShare().ifPresent(view::shareWidth);
        keeper.follow(view::place, () -> layoutOf(stage, view));
        stage.setOnHidden(
                e -> {
                    keeper.close();
                    prelude.close();
                });
        stage.getScene().setRoot(view);
        stage.getIcons().add(new Image(PadwardApp.class.getResourceAsStream("icon.png")));
        followTitle(stage, model);
        view.lookup("#net-field").requestFocus();
    }

    /** Shows a stage with nothing open and nothing remembered. */
    static WindowModel show(Stage stage, BackgroundWork background) {
        WindowModel model = new WindowModel(background);
        noteFaults(model);
        Application.setUserAgentStylesheet(sheet(model));
        MainView view = new MainView(new MapModel(model));
        show(stage, view);
        followTitle(stage, model);
        view.lookup("#net-field").requestFocus();
        return model;
    }

    private static String sheet(WindowModel model) {
        return Themes.sheet(model.look().darkProperty().get());
    }

    private static void show(Stage stage, Parent root) {
        stage.setScene(new Scene(root, WIDTH, HEIGHT));
        stage.setMinWidth(LEAST_WIDTH);
        stage.setMinHeight(LEAST_HEIGHT);
        stage.show();
        // Some window managers give a new window a size of their own, of a few hundred pixels.
        Platform.runLater(stage::sizeToScene);
    }

    /** Puts the window where it was, if that is still on a screen. */
    static void restore(Stage stage, Session.Layout layout) {
        Optional<Session.Bounds> place = layout.window().filter(PadwardApp::isOnScreen);
        // After the size that the window gets first.
        Platform.runLater(
                () -> {
                    place.ifPresent(
                            at -> {
                                stage.setX(at.x());
                                stage.setY(at.y());
                                stage.setWidth(Math.max(LEAST_WIDTH, at.width()));
                                stage.setHeight(Math.max(LEAST_HEIGHT, at.height()));
                            });
                    stage.setMaximized(layout.maximised());
                });
    }

    private static boolean isOnScreen(Session.Bounds at) {
        return !Screen.getScreensForRectangle(at.x(), at.y(), at.width(), at.height()).isEmpty();
    }

    static Session.Layout layoutOf(Stage stage, MainView view) {
        return new Session.Layout(
                stage.isMaximized()
                        ? Optional.empty()
                        : Optional.of(
                                new Session.Bounds(
                                        stage.getX(),
                                        stage.getY(),
                                        stage.getWidth(),
                                        stage.getHeight())),
                stage.isMaximized(),
                view.widthShare(),
                Map.of());
    }

    /** A fault that nothing else caught becomes a note, and the window stays usable. */
    private static void noteFaults(WindowModel model) {
        Thread.currentThread()
                .setUncaughtExceptionHandler(
                        (thread, fault) -> {
                            fault.printStackTrace();
                            model.notes().add(model, new IllegalStateException(fault));
                        });
    }

    private static void followTitle(Stage stage, WindowModel model) {
        // Whoever comes back from another program may have written the file there.
        // Asked of the scene, so that a stage keeps nothing of what it showed before.
        stage.getScene()
                .windowProperty()
                .flatMap(Window::focusedProperty)
                .addListener(
                        (p, old, now) -> {
                            if (Boolean.TRUE.equals(now)) {
                                model.lookForChange();
                            }
                        });
        showTitle(stage, model);
        model.openedProperty().addListener((p, old, now) -> showTitle(stage, model));
    }

    private static void showTitle(Stage stage, WindowModel model) {
        stage.setTitle(
                model.openedProperty()
                        .get()
                        .map(OpenDesign::design)
                        .map(Design::name)
                        .map(n -> NAME + " — " + n)
                        .orElse(NAME));
    }
}
