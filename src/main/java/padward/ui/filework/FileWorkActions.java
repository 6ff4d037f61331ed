package padward.ui.filework;

import java.nio.file.Path;
import java.util.List;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.geometry.Insets;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBar;
import javafx.scene.control.ButtonType;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Dialog;
import javafx.scene.control.DialogPane;
import javafx.scene.control.Spinner;
import padward.ui.control.Action;
import padward.ui.control.FileDialogs;
import padward.ui.control.NumberSpinners;
import padward.ui.control.Themes;

/**
 * The tools of the menu, each with a small dialog. What was entered stays for the next time, so
 * that a fault can be mended without entering everything again.
 */
public final class FileWorkActions {
    private static final double MOST_MHZ = 1e6;

    private final FileWorkModel model;
    private final FileDialogs files;
    private final Node owner;

    private final StringProperty capture = new SimpleStringProperty("");
    private final StringProperty sheet = new SimpleStringProperty("");
    private final StringProperty channels = new SimpleStringProperty("");
    private final StringProperty clocks = new SimpleStringProperty("");
    private final ObjectProperty<Double> sampleMhz = new SimpleObjectProperty<>(0.0);
    private final OfferedName deskewed = new OfferedName(capture, FileWorkActions::deskewedName);

    private final StringProperty tables = new SimpleStringProperty("");
    private final StringProperty bsdl = new SimpleStringProperty("");
    private final StringProperty folder = new SimpleStringProperty("");
    private final BooleanProperty opensImported = new SimpleBooleanProperty(true);

    private final StringProperty netlist = new SimpleStringProperty("");
    private final StringProperty top = new SimpleStringProperty("");
    private final StringProperty mapping = new SimpleStringProperty("");
    private final StringProperty fabric = new SimpleStringProperty("");
    private final StringProperty board = new SimpleStringProperty("");
    private final OfferedName design = new OfferedName(netlist, FileWorkActions::designName);
    private final BooleanProperty opensDesign = new SimpleBooleanProperty(true);

    /**
     * The tools.
     *
     * @param files chooses files
     * @param owner a node of the window that the dialogs belong to
     */
    public FileWorkActions(FileWorkModel model, FileDialogs files, Node owner) {
        this.model = model;
        this.files = files;
        this.owner = owner;
    }

    /** All of them. */
    public List<Action> all() {
        return List.of(
                tool(
                        "deskew",
                        "Deskew a capture…",
                        "Shifts each channel of a capture by the delay of its line on the bench"
                                + " sheet",
                        this::deskew),
                tool(
                        "import",
                        "Import tables…",
                        "Makes a fabric, a board and a design of a folder of plain tables",
                        this::importTables),
                tool(
                        "place-route",
                        "Place and route a netlist…",
                        "Makes a design of a netlist on a fabric",
                        this::placeAndRoute));
    }

    private static Action tool(String id, String text, String purpose, Runnable work) {
        return Action.of(id, Action.Group.TOOL, text, "", purpose, work);
    }

    private void deskew() {
        FileWorkForm form =
                new FileWorkForm(
                        "deskew",
                        "Writes a copy of a capture in which all changes are stamped as they left"
                                + " the drivers of their nets. The capture stays as it is.");
        form.file("capture", FileWorkModel.CAPTURE, capture, files::capture);
        form.file(
                "sheet",
                FileWorkModel.SHEET,
                sheet,
                () -> files.input("Choose the bench sheet as a table", "bench.csv"));
        form.text(
                "channels",
                FileWorkModel.CHANNELS,
                "such as D0 = J1.2",
                "Which channel measures which line of the sheet, where their names do not tell;"
                        + " several are separated by commas",
                channels);
        form.text(
                "clocks",
                FileWorkModel.CLOCKS,
                "such as clk12 = 12.5",
                "Frequencies of clocks, needed where a line of a watch circuit is late by some"
                        + " cycles of a clock; several are separated by commas",
                clocks);
        Spinner<Double> rate = NumberSpinners.decimal(0, MOST_MHZ, sampleMhz.get(), 100);
        rate.setId("deskew-rate");
        rate.setAccessibleText("Sample rate, millions of samples a second; 0 if not known");
        NumberSpinners.bind(rate, sampleMhz);
        form.add("Sample rate, MS/s", rate);
        form.file(
                "output",
                FileWorkModel.WRITE_TO,
                deskewed.textProperty(),
                () -> files.output("Save the deskewed capture", "deskewed.vcd"));
        show(
                "Deskew a capture",
                "Deskew",
                form,
                () ->
                        model.deskew(
                                new FileWorkModel.DeskewFields(
                                        capture.get(),
                                        sheet.get(),
                                        channels.get(),
                                        clocks.get(),
                                        sampleMhz.get(),
                                        deskewed.textProperty().get())));
    }

    private static Path deskewedName(Path capture) {
        String name = capture.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return capture.resolveSibling(
                dot < 0
                        ? name + "-deskewed"
                        : name.substring(0, dot) + "-deskewed" + name.substring(dot));
    }

    private void importTables() {
        FileWorkForm form =
                new FileWorkForm(
                        "import",
                        "Reads a folder of tables (CSV) and writes a fabric, and a board and a"
                                + " design if there are tables of them. The tables stay as they are.");
        form.file(
                "tables",
                FileWorkModel.TABLES,
                tables,
                () -> files.folder("Choose the folder of tables"));
        form.optional(
                "bsdl",
                FileWorkModel.BSDL,
                bsdl,
                () -> files.input("Choose a BSDL file for the package pins", "device.bsdl"));
        form.file(
                "output",
                FileWorkModel.WRITE_TO,
                folder,
                () -> files.folder("Choose a new or empty folder"));
        form.add(opening("import", opensImported));
        show(
                "Import tables",
                "Import",
                form,
                () ->
                        model.importTables(
                                new FileWorkModel.ImportFields(
                                        tables.get(),
                                        bsdl.get(),
                                        folder.get(),
                                        opensImported.get())));
    }

    private void placeAndRoute() {
        FileWorkForm form =
                new FileWorkForm(
                        "place-route",
                        "Packs, places and routes a netlist on a fabric and writes the design. A"
                                + " mapping states the kind of cell of each type in the netlist.");
        form.file("netlist", FileWorkModel.NETLIST, netlist, files::netlist);
        form.text(
                "top",
                FileWorkModel.TOP,
                "such as counter",
                "The module that contains all others; needed where more than one could be the top",
                top);
        form.file("mapping", FileWorkModel.MAPPING, mapping, files::mapping);
        form.file(
                "fabric",
                FileWorkModel.FABRIC,
                fabric,
                () -> files.input("Choose the fabric", "fabric.json", "fabric.json.gz"));
        form.optional(
                "board",
                FileWorkModel.BOARD,
                board,
                () -> files.input("Choose the board", "board.json"));
        form.file(
                "output",
                FileWorkModel.WRITE_TO,
                design.textProperty(),
                () -> files.output("Save the routed design", "design.json"));
        form.add(opening("place-route", opensDesign));
        show(
                "Place and route a netlist",
                "Place and route",
                form,
                () ->
                        model.placeAndRoute(
                                new FileWorkModel.NetlistFields(
                                        netlist.get(),
                                        top.get(),
                                        mapping.get(),
                                        fabric.get(),
                                        board.get(),
                                        design.textProperty().get(),
                                        opensDesign.get())));
    }

    private static Path designName(Path netlist) {
        String name = netlist.getFileName().toString();
        int dot = name.lastIndexOf('.');
        return netlist.resolveSibling((dot < 0 ? name : name.substring(0, dot)) + ".design.json");
    }

    private static CheckBox opening(String id, BooleanProperty opens) {
        CheckBox box = new CheckBox("open the design afterwards");
        box.setId(id + "-opens");
        box.selectedProperty().bindBidirectional(opens);
        return box;
    }

    /** Shows a form over the window; its button closes it and runs the tool. */
    private void show(String title, String run, FileWorkForm form, Runnable work) {
        ButtonType start = new ButtonType(run, ButtonBar.ButtonData.OK_DONE);
        Dialog<ButtonType> dialog = new Dialog<>();
        dialog.setTitle(title);
        dialog.initOwner(owner.getScene().getWindow());
        dialog.setResizable(true);
        form.setPadding(new Insets(16));
        DialogPane pane = dialog.getDialogPane();
        pane.setContent(form);
        pane.getButtonTypes().addAll(start, ButtonType.CANCEL);
        Themes.dress(pane, owner.getScene().getRoot());
        pane.setId("tool-dialog");
        Button button = (Button) pane.lookupButton(start);
        button.setId("tool-run");
        button.disableProperty().bind(form.incomplete());
        dialog.resultProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now == start) {
                                work.run();
                            }
                        });
        dialog.show();
    }
}
