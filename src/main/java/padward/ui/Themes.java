package padward.ui;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;

/** The two themes' style sheets. */
final class Themes {
    private Themes() {}

    static String sheet(boolean dark) {
        return dark
                ? new PrimerDark().getUserAgentStylesheet()
                : new PrimerLight().getUserAgentStylesheet();
    }
}
