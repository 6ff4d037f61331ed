package padward.ui;

import java.io.File;
import java.nio.file.Path;
import java.util.Optional;
import javafx.scene.Node;
import javafx.stage.DirectoryChooser;
import javafx.stage.FileChooser;
import javafx.stage.Window;

/** Asks for files. */
final class FileDialogs {
    private final Node owner;

    /**
     * @param owner something in the window that the dialogs belong to
     */
    FileDialogs(Node owner) {
        this.owner = owner;
    }

    Optional<Path> design() {
        FileChooser chooser = chooser("Open a design");
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter("Designs", "*.json", "*.json.gz"),
                        new FileChooser.ExtensionFilter("All files", "*"));
        return path(chooser.showOpenDialog(window()));
    }

    Optional<Path> ledger() {
        return path(chooser("Open a ledger").showOpenDialog(window()));
    }

    Optional<Path> newLedger() {
        FileChooser chooser = chooser("Save what is kept as a ledger");
        chooser.setInitialFileName("ledger.json");
        return path(chooser.showSaveDialog(window()));
    }

    Optional<Path> lessons() {
        DirectoryChooser chooser = new DirectoryChooser();
        chooser.setTitle("Open a folder of lessons");
        return path(chooser.showDialog(window()));
    }

    Optional<Path> newSummary() {
        FileChooser chooser = chooser("Write what the learner has done, .html or .txt");
        chooser.setInitialFileName("lessons.html");
        return path(chooser.showSaveDialog(window()));
    }

    /** Where a picture or a table is to be saved. */
    Optional<Path> export(String title, String name) {
        FileChooser chooser = chooser(title);
        chooser.setInitialFileName(name);
        return path(chooser.showSaveDialog(window()));
    }

    private static FileChooser chooser(String title) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(title);
        return chooser;
    }

    private Window window() {
        return owner.getScene().getWindow();
    }

    private static Optional<Path> path(File file) {
        return Optional.ofNullable(file).map(File::toPath);
    }
}
