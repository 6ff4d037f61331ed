package padward.ui.control;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import java.util.ArrayList;
import java.util.List;
import javafx.collections.ListChangeListener;
import javafx.collections.WeakListChangeListener;
import javafx.scene.Parent;
import javafx.scene.control.DialogPane;

/** The style sheets: of the two themes, and of the window itself. */
public final class Themes {
    private static final String WINDOW = "main-view";
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
        Runnable follow = () -> dressed(pane, window);
        ListChangeListener<String> listener = change -> follow.run();
        // The window outlives the dialog, which keeps the listener as long as it lives itself.
        pane.getProperties().put(Themes.class, listener);
        window.getStyleClass().addListener(new WeakListChangeListener<>(listener));
        follow.run();
    }

    /** Makes what opens over a window look as that looks now. */
    static void dressNow(Parent over, Parent window) {
        over.getStylesheets().setAll(window.getStylesheets());
        over.setStyle(window.getStyle());
        dressed(over, window);
    }

    private static void dressed(Parent over, Parent window) {
        // The themes state their colours for what is at the root of a window.
        List<String> classes = new ArrayList<>(List.of("root", WINDOW));
        if (window.getStyleClass().contains(DARK)) {
            classes.add(DARK);
        }
        over.getStyleClass().removeAll("root", WINDOW, DARK);
        over.getStyleClass().addAll(classes);
    }

    /** The style sheet that the program's own views add to either theme. */
    public static String window() {
        return Themes.class.getResource("window.css").toExternalForm();
    }
}
