package padward.ui;

import java.nio.file.Files;
import java.nio.file.Path;
import javafx.collections.ListChangeListener;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuItem;
import padward.ui.model.WindowModel;

/** The recently opened designs, as a submenu of the File menu. */
final class RecentMenu extends Menu {
    private final WindowModel model;

    RecentMenu(WindowModel model) {
        super("Open recent");
        this.model = model;
        setId("recent-menu");
        model.recentFiles().items().addListener((ListChangeListener<String>) c -> fill());
        fill();
    }

    private void fill() {
        getItems().clear();
        for (String file : model.recentFiles().items()) {
            MenuItem item = new MenuItem(file);
            item.setMnemonicParsing(false);
            item.setOnAction(e -> open(file));
            getItems().add(item);
        }
        setDisable(getItems().isEmpty());
    }

    private void open(String file) {
        if (Files.exists(Path.of(file))) {
            model.open(Path.of(file));
        } else {
            model.recentFiles().forget(file);
            model.notes().add(this, file + " no longer exists.");
        }
    }
}
