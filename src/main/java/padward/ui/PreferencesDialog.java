package padward.ui;

import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Scene;
import javafx.scene.control.ButtonType;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Dialog;
import javafx.scene.control.Label;
import javafx.scene.control.Spinner;
import javafx.scene.layout.HBox;
import javafx.scene.layout.VBox;
import padward.ui.control.NumberSpinners;
import padward.ui.control.Themes;
import padward.ui.model.AppearanceModel;

/** What the user prefers; each change shows at once and stays. */
final class PreferencesDialog {
    private PreferencesDialog() {}

    /** Shows it over the window of a scene; returns at once. */
    static void show(Scene scene, AppearanceModel look) {
        CheckBox dark = new CheckBox("_Dark theme");
        dark.setId("prefer-dark");
        dark.selectedProperty().bindBidirectional(look.darkProperty());
        CheckBox lists = new CheckBox("_Lists next to the map");
        lists.setId("prefer-lists");
        lists.selectedProperty().bindBidirectional(look.listsProperty());
        CheckBox reasons = new CheckBox("_Reasons under the answer");
        reasons.setId("prefer-reasons");
        reasons.selectedProperty().bindBidirectional(look.reasonsProperty());
        Spinner<Integer> size = NumberSpinners.whole(10, 26, look.textSizeProperty().get(), 1);
        size.setId("prefer-text-size");
        size.setAccessibleText("Size of text in pixels");
        size.valueProperty().addListener((p, old, now) -> look.setTextSize(now));
        HBox text = new HBox(8, new Label("Size of text"), size, new Label("pixels"));
        text.setAlignment(Pos.CENTER_LEFT);
        VBox all = new VBox(10, dark, lists, reasons, text);
        all.setPadding(new Insets(16));
        Dialog<ButtonType> dialog = new Dialog<>();
        dialog.setTitle("Preferences");
        dialog.initOwner(scene.getWindow());
        dialog.getDialogPane().setContent(all);
        dialog.getDialogPane().getButtonTypes().add(ButtonType.CLOSE);
        Themes.dress(dialog.getDialogPane(), scene.getRoot());
        dialog.getDialogPane().setId("preferences");
        dialog.show();
    }
}
