package padward.ui;

import java.io.File;
import java.util.List;
import javafx.application.Application;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Alert;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.stage.FileChooser;

/** The window's content: question bar, fabric map, strip map, notes. */
final class MainView extends BorderPane {
    private static final String HELP =
            """
            Type a net and a pad, press Enter. Patterns: * any characters, ? one.
            Down and Up choose among the names offered.

            Map: drag or arrows move, wheel or + and - zoom, 0 shows all, W the way.
            Strip map: click a hop, or Left and Right; the map flies there.

            Ctrl+O opens a design, Ctrl+D turns dark and light, Esc stops work.

            Before you drive a pad, read its cautions. The board's documents decide.""";

    private final ExplorerModel model;
    private final MapView map;
    private final StripMapView strip;
    private final ToggleButton dark = new ToggleButton("Dark");

    MainView(ExplorerModel model) {
        this.model = model;
        this.map = new MapView(model);
        this.strip = new StripMapView(model);
        getStyleClass().add("main-view");
        getStylesheets().add(MainView.class.getResource("window.css").toExternalForm());
        setTop(new VBox(bar(), new QuestionBar(model), note()));
        setCenter(map);
        setBottom(strip);
        map.paletteProperty().addListener((p, old, now) -> strip.paletteProperty().set(now));
        dark.selectedProperty().addListener((p, old, now) -> theme(now));
        acceptFiles();
        shortcuts();
    }

    private HBox bar() {
        Button open = new Button("Open…");
        open.setId("open-button");
        open.setOnAction(e -> choose());
        dark.setId("dark-button");
        Button all = new Button("Whole fabric");
        all.setOnAction(e -> map.fitAll());
        Button way = new Button("Whole way");
        way.setOnAction(e -> map.fitWay());
        Button help = new Button("Help");
        help.setOnAction(e -> help());
        Label name = new Label();
        name.setId("design-name");
        name.getStyleClass().add("faint");
        model.openedProperty()
                .addListener(
                        (p, old, now) ->
                                name.setText(
                                        now.map(
                                                        o ->
                                                                o.design().name()
                                                                        + " on "
                                                                        + o.design()
                                                                                .fabric()
                                                                                .info()
                                                                                .name()
                                                                        + ", "
                                                                        + o.design().nets().size()
                                                                        + " nets")
                                                .orElse("")));
        Region spring = new Region();
        HBox.setHgrow(spring, Priority.ALWAYS);
        HBox bar = new HBox(8, open, name, spring, all, way, dark, help);
        bar.setAlignment(Pos.CENTER_LEFT);
        bar.setPadding(new Insets(8, 16, 0, 16));
        return bar;
    }

    /** Faults stand here until they are put away, and can be copied. */
    private HBox note() {
        Label text = new Label();
        text.setId("note");
        text.setWrapText(true);
        text.setMinHeight(Region.USE_PREF_SIZE);
        text.textProperty().bind(model.noteProperty());
        HBox.setHgrow(text, Priority.ALWAYS);
        text.setMaxWidth(Double.MAX_VALUE);
        Button close = new Button("Dismiss");
        close.setMinWidth(Region.USE_PREF_SIZE);
        close.setOnAction(e -> model.noteProperty().set(""));
        HBox note = new HBox(10, text, close);
        note.getStyleClass().add("note");
        note.setAlignment(Pos.CENTER_LEFT);
        note.visibleProperty().bind(model.noteProperty().isNotEmpty());
        note.managedProperty().bind(note.visibleProperty());
        return note;
    }

    private void theme(boolean isDark) {
        Application.setUserAgentStylesheet(Themes.sheet(isDark));
        map.paletteProperty().set(isDark ? Palette.DARK : Palette.LIGHT);
        getStyleClass().remove("dark");
        if (isDark) {
            getStyleClass().add("dark");
        }
    }

    private void choose() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle("Open a design");
        chooser.getExtensionFilters()
                .addAll(
                        new FileChooser.ExtensionFilter("Designs", "*.json", "*.json.gz"),
                        new FileChooser.ExtensionFilter("All files", "*"));
        File file = chooser.showOpenDialog(getScene().getWindow());
        if (file != null) {
            model.open(file.toPath());
        }
    }

    private void acceptFiles() {
        setOnDragOver(
                e -> {
                    if (e.getDragboard().hasFiles()) {
                        e.acceptTransferModes(TransferMode.COPY);
                    }
                    e.consume();
                });
        setOnDragDropped(
                e -> {
                    List<File> files = e.getDragboard().getFiles();
                    if (!files.isEmpty()) {
                        model.open(files.get(0).toPath());
                    }
                    e.setDropCompleted(!files.isEmpty());
                    e.consume();
                });
    }

    private void shortcuts() {
        sceneProperty()
                .addListener(
                        (p, old, scene) -> {
                            if (scene != null) {
                                scene.getAccelerators().put(shortcut(KeyCode.O), this::choose);
                                scene.getAccelerators()
                                        .put(
                                                shortcut(KeyCode.D),
                                                () -> dark.setSelected(!dark.isSelected()));
                                scene.getAccelerators()
                                        .put(new KeyCodeCombination(KeyCode.F1), this::help);
                                scene.getAccelerators()
                                        .put(new KeyCodeCombination(KeyCode.ESCAPE), model::cancel);
                            }
                        });
    }

    private static KeyCombination shortcut(KeyCode code) {
        return new KeyCodeCombination(code, KeyCombination.SHORTCUT_DOWN);
    }

    private void help() {
        Alert alert = new Alert(Alert.AlertType.INFORMATION, HELP);
        alert.setTitle("Padward help");
        alert.setHeaderText("How to ask");
        alert.initOwner(getScene().getWindow());
        alert.show();
    }
}
