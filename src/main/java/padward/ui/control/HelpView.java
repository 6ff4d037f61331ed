package padward.ui.control;

import java.util.stream.Collectors;
import javafx.scene.control.Alert;
import javafx.scene.layout.Region;
import javafx.stage.Window;

/** The help: how to ask, and every key. */
public final class HelpView {
    private static final String HELP =
            """
            Type a net and a pad, press Enter. Patterns: * any characters, ? one.
            Down and Up choose among the names offered.

            Map: drag or wheel. Strip map: click a hop, or Left and Right; the map flies there.
            Ways out: where the pointer rests, the way is shown; Enter asks for that pad.

            Before you drive a pad, read its cautions. The board's documents decide.

            """;

    private HelpView() {}

    /** Opens it in front of a window. */
    public static void show(Actions actions, Window owner) {
        Alert alert = new Alert(Alert.AlertType.INFORMATION, HELP + keys(actions));
        alert.setTitle("Padward help");
        alert.setHeaderText("How to ask");
        alert.initOwner(owner);
        alert.getDialogPane().setMinHeight(Region.USE_PREF_SIZE);
        alert.show();
    }

    /** The keys, one a line. */
    private static String keys(Actions actions) {
        return actions.all().stream()
                .filter(a -> !a.keys().isEmpty())
                .map(a -> a.keyText() + ": " + a.text().replace("…", ""))
                .collect(Collectors.joining("\n"));
    }
}
