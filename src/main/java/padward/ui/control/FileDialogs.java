package padward.ui.control;

import java.io.File;
import java.nio.file.Path;
import java.util.Optional;
import javafx.scene.Node;
import javafx.stage.DirectoryChooser;
import javafx.stage.FileChooser;
import javafx.stage.Window;

/** The file dialogs. */
public final class FileDialogs {
    private final Node owner;

    /**
     * @param owner a node of the window that the dialogs belong to
     */
    public FileDialogs(Node owner) {
        this.owner = owner;
    }

    /** The design to open; empty when none was chosen. */
    public Optional<Path> design() {
        FileChooser chooser = chooser("Open a design");
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter("Designs", "*.json", "*.json.gz"),
                        new FileChooser.ExtensionFilter("All files", "*"));
        return path(chooser.showOpenDialog(window()));
    }

    /** The ledger to open. */
    public Optional<Path> ledger() {
        return path(chooser("Open a ledger").showOpenDialog(window()));
    }

    /** Where to write a ledger. */
    public Optional<Path> newLedger() {
        FileChooser chooser = chooser("Save the kept changes as a ledger");
        chooser.setInitialFileName("ledger.json");
        return path(chooser.showSaveDialog(window()));
    }

    /** The folder of the lessons. */
    public Optional<Path> lessons() {
        DirectoryChooser chooser = new DirectoryChooser();
        chooser.setTitle("Open a folder of lessons");
        return path(chooser.showDialog(window()));
    }

    /** Where to write a learner's summary, as a page or as text. */
    public Optional<Path> newSummary() {
        FileChooser chooser = chooser("Save the learner's summary, .html or .txt");
        chooser.setInitialFileName("lessons.html");
        return path(chooser.showSaveDialog(window()));
    }

    /** Where to save a picture or a table. */
    public Optional<Path> export(String title, String name) {
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
