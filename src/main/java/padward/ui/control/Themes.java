package padward.ui.control;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;

/** The style sheets: of the two themes, and of the window itself. */
public final class Themes {
    private Themes() {}

    /** The style sheet of the light or the dark theme. */
    public static String sheet(boolean dark) {
        return dark
                ? new PrimerDark().getUserAgentStylesheet()
                : new PrimerLight().getUserAgentStylesheet();
    }

    /** The style sheet that the program's own views add to either theme. */
    public static String window() {
        return Themes.class.getResource("window.css").toExternalForm();
    }
}
