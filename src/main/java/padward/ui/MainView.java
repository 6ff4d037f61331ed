package padward.ui;

import java.io.File;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import javafx.application.Application;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Alert;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.SplitPane;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
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
            Backspace goes back to where you were, with Shift forward again.
            Ctrl+F finds a net, cell, pad, site, wire or tile on the map.
            Strip map: click a hop, or Left and Right; the map flies there.

            Ways out: where the pointer rests, the way is shown; Enter asks for that pad.
            Ctrl+T tries the answer out; keep or drop it. Ctrl+Z undoes, Ctrl+Shift+Z redoes,
            Ctrl+S saves what is kept as a ledger.

            Ctrl+O opens a design, Ctrl+D turns dark and light, Esc stops work.

            Before you drive a pad, read its cautions. The board's documents decide.""";

    private final ExplorerModel model;
    private final MapView map;
    private final StripMapView strip;
    private final KeptStrip kept;
    private static final double MAP_SHARE = 0.62;
    private static final double LISTS_HEIGHT = 128;

    private final CompletingField find = new CompletingField(this::placeNames);
    private final ToggleButton dark = new ToggleButton("Dark");
    private final ToggleButton sideShown = new ToggleButton("Lists");

    MainView(ExplorerModel model) {
        this.model = model;
        this.map = new MapView(model);
        this.strip = new StripMapView(model);
        this.kept = new KeptStrip(model);
        getStyleClass().add("main-view");
        getStylesheets().add(MainView.class.getResource("window.css").toExternalForm());
        setTop(new VBox(bar(), new QuestionBar(model), note(), new TrialBar(model)));
        setCenter(middle());
        setBottom(new VBox(strip, kept));
        map.paletteProperty().addListener((p, old, now) -> strip.paletteProperty().set(now));
        dark.selectedProperty().addListener((p, old, now) -> theme(now));
        acceptFiles();
        shortcuts();
    }

    /** The map, and beside it what would open the way, and all the ways out. */
    private SplitPane middle() {
        OpeningsView openings = new OpeningsView(model);
        Tab ways = new Tab("Ways out", new WaysOutView(model));
        Tab nets = new Tab("Nets", new NetsView(model));
        nets.setId("nets-tab");
        TabPane lists = new TabPane(ways, nets);
        lists.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
        lists.setMinHeight(LISTS_HEIGHT);
        VBox.setVgrow(lists, Priority.ALWAYS);
        VBox.setVgrow(openings, Priority.SOMETIMES);
        VBox side = new VBox(openings, lists);
        side.setId("side");
        side.getStyleClass().add("side");
        side.setMinWidth(220);
        side.visibleProperty().bind(sideShown.selectedProperty());
        SplitPane middle = new SplitPane(map, side);
        SplitPane.setResizableWithParent(side, false);
        middle.setDividerPositions(MAP_SHARE);
        sideShown
                .selectedProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now) {
                                middle.getItems().add(side);
                                middle.setDividerPositions(MAP_SHARE);
                            } else {
                                middle.getItems().remove(side);
                            }
                        });
        return middle;
    }

    private HBox bar() {
        Button open = new Button("Open…");
        open.setId("open-button");
        open.setOnAction(e -> choose());
        dark.setId("dark-button");
        Button ledger = new Button("Ledger…");
        ledger.setId("ledger-button");
        ledger.setTooltip(new Tooltip("Opens a ledger on the design that is open"));
        ledger.setOnAction(e -> chooseLedger());
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
        find.setId("find-field");
        find.setPromptText("find a name on the map");
        find.setAccessibleText("Find a net, cell, pad, site, wire or tile on the map");
        find.setPrefWidth(220);
        find.setMinWidth(90);
        find.addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        findOnMap();
                        e.consume();
                    }
                });
        Button back = new Button("◀");
        back.setId("back-button");
        back.setAccessibleText("Back to the last place on the map");
        back.setTooltip(new Tooltip("Back to the place on the map before the last jump"));
        back.setOnAction(e -> map.back());
        Button forward = new Button("▶");
        forward.setAccessibleText("Forward on the map");
        forward.setTooltip(new Tooltip("Forward again"));
        forward.setOnAction(e -> map.forward());
        for (Region fixed : List.of(open, ledger, back, forward, all, way, sideShown, dark, help)) {
            fixed.setMinWidth(Region.USE_PREF_SIZE);
        }
        Region spring = new Region();
        HBox.setHgrow(spring, Priority.ALWAYS);
        sideShown.setSelected(true);
        sideShown.setId("side-button");
        name.setMinWidth(0);
        HBox bar =
                new HBox(
                        8, open, ledger, name, spring, find, back, forward, all, way, sideShown,
                        dark, help);
        bar.setAlignment(Pos.CENTER_LEFT);
        bar.setPadding(new Insets(8, 16, 0, 16));
        return bar;
    }

    private List<String> placeNames() {
        return model.openedProperty().get().map(Opened::placeNames).orElse(List.of());
    }

    private void findOnMap() {
        Optional<Opened> opened = model.openedProperty().get();
        if (opened.isEmpty() || find.getText().isBlank()) {
            return;
        }
        OptionalInt vertex = Finder.find(opened.get(), find.getText());
        if (vertex.isPresent()) {
            map.flyTo(vertex.getAsInt());
        } else {
            model.noteProperty()
                    .set(
                            "Nothing on the map is called “"
                                    + find.getText().strip()
                                    + "”: give the name of a net, cell, pad, site, wire or tile.");
        }
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

    private void chooseLedger() {
        FileChooser chooser = new FileChooser();
        chooser.setTitle("Open a ledger");
        File file = chooser.showOpenDialog(getScene().getWindow());
        if (file != null) {
            model.openLedger(file.toPath());
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
                                        .put(shortcut(KeyCode.F), find::requestFocus);
                                scene.getAccelerators().put(shortcut(KeyCode.S), kept::save);
                                scene.getAccelerators().put(shortcut(KeyCode.Z), model::undo);
                                scene.getAccelerators()
                                        .put(
                                                new KeyCodeCombination(
                                                        KeyCode.Z,
                                                        KeyCombination.SHORTCUT_DOWN,
                                                        KeyCombination.SHIFT_DOWN),
                                                model::redo);
                                scene.getAccelerators().put(shortcut(KeyCode.T), model::tryIt);
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
