package padward.ui.control;

import java.io.File;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.scene.Node;
import javafx.stage.DirectoryChooser;
import javafx.stage.FileChooser;
import javafx.stage.Window;

/** The file dialogs. */
public final class FileDialogs {
    private final Node owner;
    private final Supplier<Optional<Path>> first;
    private Optional<Path> folder = Optional.empty();

    /**
     * @param owner a node of the window that the dialogs belong to
     */
    public FileDialogs(Node owner) {
        this(owner, Optional::empty);
    }

    /**
     * @param owner a node of the window that the dialogs belong to
     * @param first the file beside which the first dialog begins, such as the design opened last
     */
    public FileDialogs(Node owner, Supplier<Optional<Path>> first) {
        this.owner = owner;
        this.first = first;
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
        FileChooser chooser = chooser("Open a ledger");
        filters(chooser, "ledger.json");
        return path(chooser.showOpenDialog(window()));
    }

    /** Where to write a ledger. */
    public Optional<Path> newLedger() {
        FileChooser chooser = chooser("Save the kept changes as a ledger");
        chooser.setInitialFileName("ledger.json");
        filters(chooser, "ledger.json");
        return path(chooser.showSaveDialog(window()));
    }

    /** Where to write the design with its changes. */
    public Optional<Path> newDesign() {
        FileChooser chooser = chooser("Save the changed design");
        chooser.setInitialFileName("changed.design.json");
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter("Designs (*.json)", "*.json"),
                        new FileChooser.ExtensionFilter(
                                "Compressed designs (*.json.gz)", "*.json.gz"),
                        new FileChooser.ExtensionFilter("All files", "*"));
        return path(chooser.showSaveDialog(window()));
    }

    /** Where to write the bench sheet, its delays or its list of changes. */
    public Optional<Path> newSheet() {
        FileChooser chooser = chooser("Export the bench sheet");
        chooser.setInitialFileName("bench.pdf");
        sheetFilters(chooser);
        return path(chooser.showSaveDialog(window()));
    }

    /** All that the sheet can be written as. */
    static void sheetFilters(FileChooser chooser) {
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter("Bench sheet (*.pdf)", "*.pdf"),
                        new FileChooser.ExtensionFilter("Bench sheet (*.html)", "*.html"),
                        new FileChooser.ExtensionFilter("Table of channels (*.csv)", "*.csv"),
                        new FileChooser.ExtensionFilter("Delays (*.sdf)", "*.sdf"),
                        new FileChooser.ExtensionFilter("List of changes (*.json)", "*.json"),
                        new FileChooser.ExtensionFilter("All files", "*"));
    }

    /** The netlist of a circuit of the user's own. */
    public Optional<Path> netlist() {
        FileChooser chooser = chooser("Choose a netlist");
        filters(chooser, "netlist.v", "netlist.edf");
        return path(chooser.showOpenDialog(window()));
    }

    /** What the types of a netlist's cells are. */
    public Optional<Path> mapping() {
        FileChooser chooser = chooser("Choose a mapping");
        filters(chooser, "mapping.json");
        return path(chooser.showOpenDialog(window()));
    }

    /** A capture of an instrument. */
    public Optional<Path> capture() {
        FileChooser chooser = chooser("Choose a capture");
        filters(chooser, "capture.vcd", "capture.csv");
        return path(chooser.showOpenDialog(window()));
    }

    /** The folder of the lessons. */
    public Optional<Path> lessons() {
        return folder("Open a folder of lessons");
    }

    /** A folder, also one that the dialog makes. */
    public Optional<Path> folder(String title) {
        DirectoryChooser chooser = new DirectoryChooser();
        chooser.setTitle(title);
        startFolder().ifPresent(chooser::setInitialDirectory);
        return path(chooser.showDialog(window()));
    }

    /**
     * A file to read.
     *
     * @param names examples of its name, one for each kind of file
     */
    public Optional<Path> input(String title, String... names) {
        FileChooser chooser = chooser(title);
        filters(chooser, names);
        return path(chooser.showOpenDialog(window()));
    }

    /**
     * A file to write.
     *
     * @param name the name that is offered
     */
    public Optional<Path> output(String title, String name) {
        return export(title, name);
    }

    /** Where to write a learner's summary, as a page or as text. */
    public Optional<Path> newSummary() {
        FileChooser chooser = chooser("Save the learner's summary, .html or .txt");
        chooser.setInitialFileName("lessons.html");
        filters(chooser, "lessons.html", "lessons.txt");
        return path(chooser.showSaveDialog(window()));
    }

    /** Where to save a picture or a table. */
    public Optional<Path> export(String title, String name) {
        FileChooser chooser = chooser(title);
        chooser.setInitialFileName(name);
        filters(chooser, name);
        return path(chooser.showSaveDialog(window()));
    }

    /** Offers files of the same kinds as some names first, then all. */
    static void filters(FileChooser chooser, String... names) {
        for (String name : names) {
            chooser.getExtensionFilters().add(filter(name));
        }
        chooser.getExtensionFilters().add(new FileChooser.ExtensionFilter("All files", "*"));
    }

    private static FileChooser.ExtensionFilter filter(String name) {
        String ending = name.substring(name.lastIndexOf('.') + 1);
        String what =
                switch (ending) {
                    case "png", "svg" -> "Pictures";
                    case "csv" -> "Tables";
                    case "json" -> kindOf(name);
                    case "gz" -> "Compressed files";
                    case "vcd" -> "Captures";
                    case "v", "edf" -> "Netlists";
                    case "html", "txt", "pdf" -> "Pages";
                    default -> "Files";
                };
        return new FileChooser.ExtensionFilter(what + " (*." + ending + ")", "*." + ending);
    }

    private static String kindOf(String name) {
        return switch (name) {
            case "mapping.json" -> "Mappings";
            case "fabric.json" -> "Fabrics";
            case "board.json" -> "Boards";
            case "design.json" -> "Designs";
            default -> "Ledgers";
        };
    }

    /** Begins in the folder that was used last, while it is there. */
    FileChooser chooser(String title) {
        FileChooser chooser = new FileChooser();
        chooser.setTitle(title);
        startFolder().ifPresent(chooser::setInitialDirectory);
        return chooser;
    }

    private Optional<File> startFolder() {
        return folder.or(() -> first.get().map(Path::toAbsolutePath).map(Path::getParent))
                .filter(Files::isDirectory)
                .map(Path::toFile);
    }

    private Window window() {
        return owner.getScene().getWindow();
    }

    /** What was chosen, if something was; the next dialog begins beside it. */
    Optional<Path> path(File file) {
        Optional<Path> chosen = Optional.ofNullable(file).map(File::toPath);
        chosen.map(Path::toAbsolutePath)
                .map(Path::getParent)
                .ifPresent(f -> folder = Optional.of(f));
        return chosen;
    }
}
