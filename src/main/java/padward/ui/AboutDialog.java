package padward.ui;

import javafx.scene.Scene;
import javafx.scene.control.Alert;
import javafx.scene.control.ButtonType;
import padward.base.Version;
import padward.ui.control.Themes;

/** Says which program and version this is, what it runs on, and under which licences. */
final class AboutDialog {
    private AboutDialog() {}

    /** Shows it over the window of a scene; returns at once. */
    static void show(Scene scene) {
        Alert dialog = new Alert(Alert.AlertType.INFORMATION, text(), ButtonType.CLOSE);
        dialog.setHeaderText("Padward " + Version.text());
        dialog.setTitle("About Padward");
        dialog.initOwner(scene.getWindow());
        Themes.dress(dialog.getDialogPane(), scene.getRoot());
        dialog.getDialogPane().setId("about");
        dialog.show();
    }

    private static String text() {
        return "Brings an inner net of a finished design out to a pad.\n\n"
                + "Java "
                + System.getProperty("java.version")
                + ", JavaFX "
                + System.getProperty("javafx.version", "unknown")
                + ", "
                + System.getProperty("os.name")
                + "\n\nThe licence of Padward is in the file LICENSE next to it; those of the"
                + " libraries that it uses are in the folder of the application, or in the"
                + " libraries themselves.\n\nThe board's responsible engineer decides; Padward"
                + " replaces no check of the schematic or the data sheet.";
    }
}
