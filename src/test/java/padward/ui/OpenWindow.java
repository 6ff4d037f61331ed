package padward.ui;

import javafx.stage.Stage;
import padward.ui.control.Actions;
import padward.ui.export.Exports;
import padward.ui.model.Background;
import padward.ui.model.ExplorerModel;

/** A window with nothing open and nothing remembered, for tests of whatever it holds. */
public final class OpenWindow {
    private OpenWindow() {}

    /** Fills a stage and shows it; all work is done at once. */
    public static ExplorerModel show(Stage stage) {
        return PadwardApp.show(stage, Background.immediate());
    }

    /** What can be done in the window that a stage shows. */
    public static Actions actions(Stage stage) {
        return view(stage).actions();
    }

    /** What the window that a stage shows can save. */
    public static Exports exports(Stage stage) {
        return view(stage).exports();
    }

    private static MainView view(Stage stage) {
        return (MainView) stage.getScene().getRoot();
    }
}
