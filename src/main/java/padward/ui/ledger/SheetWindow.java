package padward.ui.ledger;

import java.awt.image.BufferedImage;
import java.util.List;
import java.util.function.Supplier;
import javafx.beans.InvalidationListener;
import javafx.embed.swing.SwingFXUtils;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.geometry.Rectangle2D;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Spinner;
import javafx.scene.control.Tooltip;
import javafx.scene.image.ImageView;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.Screen;
import javafx.stage.Stage;
import javafx.stage.Window;
import padward.handover.SheetPage;
import padward.ui.control.Action;
import padward.ui.control.Controls;
import padward.ui.control.FileDialogs;
import padward.ui.control.NumberSpinners;
import padward.ui.control.Themes;
import padward.ui.control.UndoKeys;
import padward.ui.model.AppearanceModel;
import padward.ui.model.WindowModel;

/** A window with the bench sheet as it will be printed, and its export. */
public final class SheetWindow extends BorderPane {
    private static final double WIDTH = 760;
    private static final double HEIGHT = 860;
    private static final double PAGE_WIDTH = 680;

    /** What the system puts around a window, in height. */
    private static final double FRAME = 60;

    private final SheetModel sheet;
    private final VBox pages = new VBox(14);
    private InvalidationListener looked = p -> {};

    SheetWindow(SheetModel sheet, Supplier<FileDialogs> dialogs) {
        this.sheet = sheet;
        setId("sheet-window");
        getStyleClass().add("main-view");
        getStylesheets().add(Themes.window());
        LeadsView leads = new LeadsView(sheet.leads());
        setTop(new VBox(bar(dialogs), leads, note()));
        sheet.whenChanged(leads::show);
        pages.setAlignment(Pos.TOP_CENTER);
        pages.setPadding(new Insets(14));
        ScrollPane scroll = new ScrollPane(pages);
        scroll.setFitToWidth(true);
        scroll.setId("sheet-pages");
        setCenter(scroll);
        sheet.pagesProperty().addListener((p, old, now) -> show(now));
        sheet.busyProperty().addListener((p, old, now) -> show(sheet.pagesProperty().get()));
        sheet.refresh();
        show(sheet.pagesProperty().get());
    }

    /** Opens it in front of another window; Esc closes it. One that is open is closed first. */
    public static Stage open(WindowModel model, Window owner) {
        List.copyOf(Window.getWindows()).stream()
                .filter(w -> w.getScene() != null && w.getScene().getRoot() instanceof SheetWindow)
                .forEach(Window::hide);
        Stage stage = new Stage();
        FileDialogs[] dialogs = new FileDialogs[1];
        SheetWindow view = new SheetWindow(new SheetModel(model), () -> dialogs[0]);
        dialogs[0] = new FileDialogs(view);
        view.follow(model.look());
        stage.setOnHidden(
                e -> {
                    view.sheet.stop();
                    view.leave(model.look());
                });
        KeyCombination close = new KeyCodeCombination(KeyCode.W, KeyCombination.SHORTCUT_DOWN);
        view.addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.ESCAPE || close.match(e)) {
                        stage.close();
                        e.consume();
                    }
                });
        stage.initOwner(owner);
        stage.setTitle("Bench sheet");
        Rectangle2D screen = Screen.getPrimary().getVisualBounds();
        Scene scene =
                new Scene(
                        view,
                        Math.min(model.look().sized(WIDTH).get(), screen.getWidth()),
                        Math.min(HEIGHT, screen.getHeight() - FRAME));
        view.installUndo(scene);
        stage.setScene(scene);
        stage.show();
        return stage;
    }

    /** As in the main window, with the same keys. */
    private void installUndo(Scene scene) {
        UndoKeys.install(
                scene,
                Action.of(
                        "sheet-undo",
                        Action.Group.QUESTION,
                        "Undo",
                        "Shortcut+Z",
                        "Undoes the last change of a lead",
                        sheet::undo),
                Action.of(
                        "sheet-redo",
                        Action.Group.QUESTION,
                        "Redo",
                        "Shortcut+Shift+Z Shortcut+Y",
                        "Repeats the change of a lead that was undone last",
                        sheet::redo),
                sheet.changesProperty());
    }

    private Label note() {
        Label note = Controls.text("", "note");
        note.setId("sheet-note");
        note.setMaxWidth(Double.MAX_VALUE);
        note.textProperty().bind(sheet.noteProperty());
        note.visibleProperty().bind(sheet.noteProperty().isNotEmpty());
        note.managedProperty().bind(note.visibleProperty());
        return note;
    }

    /** Theme and size of text are the main window's, now and later. */
    private void follow(AppearanceModel look) {
        looked = p -> show(look);
        look.darkProperty().addListener(looked);
        look.textSizeProperty().addListener(looked);
        show(look);
    }

    /** A closed sheet is not kept by the main window's looks. */
    private void leave(AppearanceModel look) {
        look.darkProperty().removeListener(looked);
        look.textSizeProperty().removeListener(looked);
    }

    private void show(AppearanceModel look) {
        setStyle("-fx-font-size: " + look.textSizeProperty().get() + "px;");
        getStyleClass().remove("dark");
        if (look.darkProperty().get()) {
            getStyleClass().add("dark");
        }
    }

    private FlowPane bar(Supplier<FileDialogs> dialogs) {
        ComboBox<SheetPage.Paper> paper = new ComboBox<>();
        paper.getItems().addAll(SheetPage.Paper.values());
        paper.setId("paper");
        paper.setAccessibleText("Paper size");
        paper.valueProperty().bindBidirectional(sheet.paperProperty());
        paper.valueProperty().addListener((p, old, now) -> sheet.refresh());
        paper.setTooltip(new Tooltip("Paper size"));
        Spinner<Double> lead =
                NumberSpinners.decimal(0, 100, sheet.leadMetresProperty().get(), 0.1);
        lead.setId("lead");
        lead.setAccessibleText("Length of the leads to the instrument, metres");
        lead.getStyleClass().add("narrow");
        lead.setTooltip(
                new Tooltip(
                        "Length of the leads for which the table below states none; their delay is"
                                + " added"));
        NumberSpinners.bind(lead, sheet.leadMetresProperty());
        Label leadLabel = new Label("Lead, m");
        leadLabel.setLabelFor(lead);
        Button export = new Button("Export…");
        export.setId("export-button");
        export.setTooltip(
                new Tooltip(
                        "The file name's ending sets the format: .pdf, .html, .csv; .sdf for"
                                + " delays, .json for the list of changes"));
        export.setOnAction(e -> dialogs.get().newSheet().ifPresent(sheet::export));
        Button print =
                Controls.button(
                        "print-button",
                        "Print…",
                        "Prints the bench sheet",
                        () -> sheet.forPrinter(this::print));
        Label busy = new Label();
        busy.setId("sheet-doing");
        busy.textProperty().bind(sheet.doingProperty());
        busy.visibleProperty().bind(sheet.busyProperty());
        HBox leads = new HBox(10, leadLabel, lead);
        leads.setAlignment(Pos.CENTER_LEFT);
        FlowPane bar = new FlowPane(10, 6, paper, leads, export, print, busy);
        bar.setPadding(new Insets(8, 14, 8, 14));
        return bar;
    }

    private void print(List<BufferedImage> made, SheetPage.Paper size) {
        sheet.say(SheetPrinter.print(made, size, getScene().getWindow()));
    }

    private void show(List<BufferedImage> made) {
        pages.getChildren().clear();
        if (made.isEmpty()) {
            Label none =
                    new Label(
                            sheet.busyProperty().get()
                                    ? sheet.doingProperty().get() + " …"
                                    : "No kept change brings a net out. Keep a what-if first"
                                            + " (Ctrl+K).");
            none.setMinHeight(Region.USE_PREF_SIZE);
            pages.getChildren().add(none);
        }
        for (int i = 0; i < made.size(); i++) {
            ImageView page = new ImageView(SwingFXUtils.toFXImage(made.get(i), null));
            page.setPreserveRatio(true);
            page.setFitWidth(PAGE_WIDTH);
            page.setSmooth(true);
            page.setAccessibleText("Page " + (i + 1) + " of " + made.size());
            pages.getChildren().add(page);
        }
    }
}
