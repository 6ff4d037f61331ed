package padward.ui.control;

import java.util.List;
import javafx.geometry.Insets;
import javafx.scene.Scene;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.stage.Window;
import padward.ui.model.AppearanceModel;

/** The help, in a window of its own: how to ask, and every key. Esc closes it. */
public final class HelpView extends ScrollPane {
    private static final double WIDTH = 620;
    private static final double HEIGHT = 640;
    private static final double SHARE_OF_SCREEN = 0.9;

    private static final List<String> HELP =
            List.of(
                    "Type a net and a pad, then press Enter. In both, * stands for any characters,"
                            + " ? for one; Down and Up choose among the suggestions. The tab Nets"
                            + " lists all nets.",
                    "The answer says whether a route from the net to the pad exists, and what"
                            + " blocks it. Try it shows the change on a copy of the design; Keep keeps it."
                            + " The design file is never changed.",
                    "Map: drag to move, turn the wheel to zoom, hold Ctrl and drag to measure:"
                            + " tiles, and the least delay over free wires. Strip map: click a hop, or press"
                            + " Left and Right; the map goes there. Routes out: point at a pad to"
                            + " see its route; Enter asks about that pad.",
                    "Before you drive a pad, read its cautions. The board's documents decide.");

    private HelpView(Actions actions) {
        setId("help");
        getStyleClass().addAll("main-view", "plain-scroll");
        getStylesheets().add(Themes.window());
        setFitToWidth(true);
        setFocusTraversable(true);
        setAccessibleText("Help: how to ask, and all keys");
        VBox all = new VBox(10, heading("How to ask"));
        all.setPadding(new Insets(16, 20, 20, 20));
        HELP.forEach(h -> all.getChildren().add(Controls.text(h)));
        for (Action.Group group : Action.Group.values()) {
            List<Action> keyed =
                    actions.in(group).stream().filter(a -> !a.keys().isEmpty()).toList();
            if (!keyed.isEmpty()) {
                all.getChildren().addAll(heading(title(group, keyed)), keys(keyed));
            }
        }
        setContent(all);
    }

    /** Opens it in front of a window; an open help window is closed first. */
    public static void show(Actions actions, Window owner, AppearanceModel look) {
        List.copyOf(Window.getWindows()).stream().filter(HelpView::isHelp).forEach(Window::hide);
        HelpView view = new HelpView(actions);
        view.setStyle("-fx-font-size: " + look.textSizeProperty().get() + "px;");
        if (look.darkProperty().get()) {
            view.getStyleClass().add("dark");
        }
        double most = Screen.getPrimary().getVisualBounds().getHeight() * SHARE_OF_SCREEN;
        Stage stage = new Stage();
        stage.initOwner(owner);
        stage.setTitle("Padward help");
        stage.setScene(
                new Scene(view, look.sized(WIDTH).get(), Math.min(most, look.sized(HEIGHT).get())));
        stage.addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.ESCAPE) {
                        stage.close();
                    }
                });
        stage.show();
        view.requestFocus();
    }

    private static boolean isHelp(Window window) {
        return window.getScene() != null && window.getScene().getRoot() instanceof HelpView;
    }

    private static String title(Action.Group group, List<Action> keyed) {
        boolean onMap = keyed.stream().anyMatch(a -> a.scope() == Action.Scope.MAP);
        return group.title() + (onMap ? ", while the map has the focus" : "");
    }

    private static Label heading(String text) {
        return Controls.text(text, "side-title");
    }

    /** The keys, one per line, with what they do. */
    private static GridPane keys(List<Action> actions) {
        GridPane grid = new GridPane();
        grid.setHgap(16);
        grid.setVgap(4);
        for (Action action : actions) {
            Label key = new Label(action.keyText());
            key.setMinWidth(Region.USE_PREF_SIZE);
            key.getStyleClass().add("key");
            Label name = Controls.text(action.text().replace("…", ""));
            Label purpose = Controls.text(action.purpose());
            purpose.getStyleClass().add("faint");
            VBox text = new VBox(name, purpose);
            GridPane.setHgrow(text, Priority.ALWAYS);
            grid.addRow(grid.getRowCount(), key, text);
        }
        return grid;
    }
}
