package padward.ui.control;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import javafx.collections.ListChangeListener;
import javafx.collections.WeakListChangeListener;
import javafx.scene.Parent;
import javafx.scene.control.DialogPane;

/** The style sheets: of the two themes, and of the window itself. */
public final class Themes {
    private static final String DARK = "dark";

    private Themes() {}

    /** The style sheet of the light or the dark theme. */
    public static String sheet(boolean dark) {
        return dark
                ? new PrimerDark().getUserAgentStylesheet()
                : new PrimerLight().getUserAgentStylesheet();
    }

    /** Makes a dialog look as the window whose content is given, also when that changes. */
    public static void dress(DialogPane pane, Parent window) {
        pane.getStylesheets().setAll(window.getStylesheets());
        pane.styleProperty().bind(window.styleProperty());
        pane.getStyleClass().add("main-view");
        Runnable follow =
                () -> {
                    pane.getStyleClass().remove(DARK);
                    if (window.getStyleClass().contains(DARK)) {
                        pane.getStyleClass().add(DARK);
                    }
                };
        ListChangeListener<String> listener = change -> follow.run();
        // The window outlives the dialog, which keeps the listener as long as it lives itself.
        pane.getProperties().put(Themes.class, listener);
        window.getStyleClass().addListener(new WeakListChangeListener<>(listener));
        follow.run();
    }

    /** The style sheet that the program's own views add to either theme. */
    public static String window() {
        return Themes.class.getResource("window.css").toExternalForm();
    }
}
