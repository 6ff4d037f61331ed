package padward.ui;

import java.io.File;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import javafx.application.Application;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.input.DragEvent;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import padward.lesson.file.LearnerFolder;
import padward.ui.control.Action;
import padward.ui.control.Actions;
import padward.ui.control.CommandSearch;
import padward.ui.control.ConsentDialog;
import padward.ui.control.Controls;
import padward.ui.control.FileDialogs;
import padward.ui.control.Focus;
import padward.ui.control.HelpView;
import padward.ui.control.NotesBar;
import padward.ui.control.Panel;
import padward.ui.control.Themes;
import padward.ui.control.UndoKeys;
import padward.ui.draw.Palette;
import padward.ui.draw.Viewport;
import padward.ui.export.Exports;
import padward.ui.filework.FileWorkActions;
import padward.ui.filework.FileWorkModel;
import padward.ui.group.GroupModel;
import padward.ui.group.GroupView;
import padward.ui.ledger.KeptChangesBar;
import padward.ui.ledger.LedgerModel;
import padward.ui.ledger.LedgerView;
import padward.ui.ledger.SheetWindow;
import padward.ui.lesson.ExercisesModel;
import padward.ui.lesson.ExercisesView;
import padward.ui.lesson.LearnerModel;
import padward.ui.lesson.LessonsModel;
import padward.ui.lesson.LessonsView;
import padward.ui.map.FindField;
import padward.ui.map.MapActions;
import padward.ui.map.MapModel;
import padward.ui.map.MapView;
import padward.ui.map.StripMapView;
import padward.ui.model.QuestionModel;
import padward.ui.model.Session;
import padward.ui.model.WindowModel;
import padward.ui.nets.NetsView;
import padward.ui.play.StepsModel;
import padward.ui.play.StepsView;
import padward.ui.question.AnswerBar;
import padward.ui.question.QuestionRow;
import padward.ui.question.QuestionTabs;
import padward.ui.question.RoutesOutView;
import padward.ui.watch.WatchModel;
import padward.ui.watch.WatchView;

/**
 * The window's content. New views are added here: an entry in {@link #panels} makes a tab next to
 * the map with its menu item and key; the constructor adds their actions.
 */
final class MainView extends StackPane {
    private final WindowModel model;
    private final MapModel mapModel;
    private final MapView map;
    private final StripMapView strip;
    private final Exports exports;
    private final Actions actions = new Actions();
    private final LearnerModel learner;
    private final MapAndLists middle;
    private final LedgerModel kept;
    private final Label dropHere = new Label("Drop the file to open it");
    private Optional<LessonsModel> lessons = Optional.empty();

    MainView(MapModel mapModel) {
        this.model = mapModel.explorer();
        this.mapModel = mapModel;
        this.kept = new LedgerModel(model);
        this.map = new MapView(mapModel);
        this.learner = new LearnerModel(model.jobs(), LearnerFolder.standard());
        this.strip = new StripMapView(mapModel);
        FileDialogs dialogs =
                new FileDialogs(
                        this, () -> model.recentFiles().items().stream().findFirst().map(Path::of));
        model.askThrough(new ConsentDialog(this));
        this.exports = new Exports(mapModel, map, strip, dialogs::export);
        FindField find = new FindField(model, map);
        actions.add(WindowActions.files(model, dialogs));
        actions.add(exports.actions());
        actions.add(new FileWorkActions(new FileWorkModel(model), dialogs, this).all());
        actions.add(
                List.of(
                        WindowActions.sheet(
                                model, () -> SheetWindow.open(model, getScene().getWindow()))));
        actions.add(WindowActions.questions(model));
        actions.add(MapActions.of(map, mapModel));
        actions.add(find.actions());
        actions.add(
                List.of(
                        Action.of(
                                "first-lesson",
                                Action.Group.HELP,
                                "First lesson",
                                "",
                                "Begins the first lesson: how a signal gets from a cell to a pad",
                                this::beginFirstLesson)));
        SidePane side = new SidePane(mapModel, panels(), actions);
        actions.add(side.actions());
        actions.add(List.of(WindowActions.anotherPad(model, side::showPads)));
        actions.add(
                List.of(
                        Action.of(
                                "quit",
                                Action.Group.FILE,
                                "Quit",
                                "Shortcut+Q",
                                "Closes Padward; what is kept is saved already",
                                () -> getScene().getWindow().hide())));
        // The user must see what has to be decided.
        kept.pendingProperty()
                .addListener((p, old, now) -> now.ifPresent(u -> actions.get("show-kept").run()));
        actions.add(WindowActions.looks(model.look()));
        actions.add(
                List.of(
                        Action.of(
                                "help",
                                Action.Group.HELP,
                                "How to ask, and all keys",
                                "F1",
                                "Explains how to ask, and lists all keys",
                                () ->
                                        HelpView.show(
                                                actions, getScene().getWindow(), model.look()))));
        model.shown()
                .scopeProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now.about() == QuestionModel.About.ANY_NET) {
                                actions.get("show-nets").run();
                            }
                        });
        actions.add(
                List.of(
                        Action.of(
                                "about",
                                Action.Group.HELP,
                                "About Padward",
                                "",
                                "Shows the version, what it runs on, and the licences",
                                () -> AboutDialog.show(getScene())),
                        Action.of(
                                "preferences",
                                Action.Group.FILE,
                                "Preferences…",
                                "Shortcut+Comma",
                                "Theme, size of text, and what is shown at the start",
                                () -> PreferencesDialog.show(getScene(), model.look()))));
        map.setActions(actions);
        getStyleClass().add("main-view");
        getStylesheets().add(Themes.window());
        CommandSearch search = new CommandSearch(actions);
        actions.add(
                List.of(
                        Action.of(
                                "commands",
                                Action.Group.HELP,
                                "All commands…",
                                "Shortcut+E",
                                "Finds any command by its words, and runs it",
                                search::open)));
        middle = new MapAndLists(new MapAndStrip(map, strip), side, model.look());
        WindowFrame frame =
                new WindowFrame(
                        new VBox(
                                new TopBar(model, actions, find),
                                new QuestionTabs(model.questions(), actions),
                                new QuestionRow(model, actions)),
                        new VBox(new AnswerBar(model, actions), new NotesBar(model.notes())),
                        middle,
                        new KeptChangesBar(model, kept, actions));
        dropHere.setId("drop-here");
        dropHere.getStyleClass().add("drop-here");
        dropHere.setMaxSize(Double.MAX_VALUE, Double.MAX_VALUE);
        dropHere.setAlignment(Pos.CENTER);
        dropHere.setMouseTransparent(true);
        dropHere.setVisible(false);
        getChildren().addAll(frame, search, dropHere);
        model.look().darkProperty().addListener((p, old, now) -> theme(now));
        model.look().textSizeProperty().addListener((p, old, now) -> textSize());
        model.requestedPlaceProperty().addListener((p, old, now) -> showRequestedPlace());
        theme(model.look().darkProperty().get());
        textSize();
        sceneProperty()
                .addListener(
                        (p, old, now) ->
                                Optional.ofNullable(now)
                                        .ifPresent(
                                                s -> {
                                                    Controls.install(actions, s);
                                                    UndoKeys.install(
                                                            s,
                                                            actions.get("undo"),
                                                            actions.get("redo"),
                                                            model.history().nextUndoProperty(),
                                                            model.history().nextRedoProperty(),
                                                            model.shown().answerProperty());
                                                    Focus.keepNear(s, () -> lookup("#net-field"));
                                                }));
        showRequestedPlace();
        setOnDragOver(this::dragOver);
        setOnDragExited(e -> dropHere.setVisible(false));
        setOnDragDropped(this::dropped);
    }

    /** Made when it is first needed: reading the lessons would delay the start. */
    private LessonsModel lessons() {
        if (lessons.isEmpty()) {
            lessons = Optional.of(new LessonsModel(model, learner));
        }
        return lessons.get();
    }

    private void beginFirstLesson() {
        actions.get("show-lessons").run();
        lessons().beginFirst();
    }

    /** The views in the tabs next to the map, in order. */
    private List<Panel> panels() {
        return List.of(
                new Panel(
                        "routes",
                        "Routes out",
                        "All pads for the net, best first",
                        () -> new RoutesOutView(model, actions)),
                new Panel(
                        "nets",
                        "Nets",
                        "The design's nets by hierarchy",
                        () -> new NetsView(model)),
                new Panel(
                        "steps",
                        "Steps",
                        "Searches played step by step, on the map and side by side",
                        () -> new StepsView(model, new StepsModel(model, mapModel))),
                new Panel(
                        "lessons",
                        "Lessons",
                        "How signals reach pads: lessons done in this window",
                        () -> new LessonsView(lessons())),
                new Panel(
                        "exercises",
                        "Exercises",
                        "Random questions about the open design, marked at once",
                        () -> new ExercisesView(new ExercisesModel(model, learner))),
                new Panel(
                        "kept",
                        "Ledger",
                        "The kept changes, each with its own undo, and what they changed",
                        () -> new LedgerView(model, kept, actions)),
                new Panel(
                        "group",
                        "Group",
                        "Several nets at once: a pad for each, and when each line arrives",
                        () -> new GroupView(new GroupModel(model), mapModel, model.look())),
                new Panel(
                        "watch",
                        "Watch",
                        "A small circuit of unused cells between nets and a pad: a trigger, a"
                                + " selector, a divider",
                        () -> new WatchView(new WatchModel(model), mapModel)));
    }

    /** The visible part of the map; none while nothing is open. */
    Optional<Session.Place> place() {
        Viewport seen = map.viewport();
        return model.openedProperty()
                .get()
                .map(o -> new Session.Place(seen.centreX(), seen.centreY(), seen.scale()));
    }

    /** Gives the map a share of the width, as the user left it. */
    void shareWidth(double ofMap) {
        middle.share(ofMap);
    }

    /** The share of the width that the user gave the map, if so. */
    Optional<Double> widthShare() {
        return middle.findShare();
    }

    /** Shows the requested part of the map, if there is one. */
    private void showRequestedPlace() {
        Optional<Session.Place> wanted = model.requestedPlaceProperty().get();
        if (wanted.isPresent() && model.openedProperty().get().isPresent()) {
            model.requestedPlaceProperty().set(Optional.empty());
            map.goTo(wanted.get().x(), wanted.get().y(), wanted.get().scale());
        }
    }

    private void textSize() {
        setStyle("-fx-font-size: " + model.look().textSizeProperty().get() + "px;");
    }

    /** What the window shows. */
    WindowModel model() {
        return model;
    }

    /** Exports of what is shown. */
    Exports exports() {
        return exports;
    }

    /** All actions of the window. */
    Actions actions() {
        return actions;
    }

    private void theme(boolean isDark) {
        String sheet = Themes.sheet(isDark);
        if (!sheet.equals(Application.getUserAgentStylesheet())) {
            Application.setUserAgentStylesheet(sheet);
        }
        Palette palette = isDark ? Palette.DARK : Palette.LIGHT;
        map.paletteProperty().set(palette);
        strip.paletteProperty().set(palette);
        getStyleClass().remove("dark");
        if (isDark) {
            getStyleClass().add("dark");
        }
    }

    private void dragOver(DragEvent event) {
        boolean files = event.getDragboard().hasFiles();
        if (files) {
            event.acceptTransferModes(TransferMode.COPY);
        }
        showDrop(files);
        event.consume();
    }

    /** Shows, while files are over the window, what dropping them does. */
    void showDrop(boolean files) {
        dropHere.setVisible(files);
    }

    private void dropped(DragEvent event) {
        showDrop(false);
        List<File> files = event.getDragboard().getFiles();
        if (!files.isEmpty()) {
            model.openAny(files.get(0).toPath());
        }
        event.setDropCompleted(!files.isEmpty());
        event.consume();
    }
}
