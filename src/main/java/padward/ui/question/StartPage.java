package padward.ui.question;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import javafx.collections.ListChangeListener;
import javafx.scene.control.Button;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.VBox;
import padward.design.Design;
import padward.design.PadNames;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.design.OpenDesign;
import padward.ui.model.WindowModel;

/**
 * What is shown in place of the list of pads until something is asked: whose tool this is, and
 * where to begin.
 */
final class StartPage extends ScrollPane {
    /** The demo's question: a pad that is blocked, with something to decide. */
    static final String NET = "pump/level/sample[1]";

    static final String PAD = "J1.3";

    private static final int MOST_FILES = 5;

    private final WindowModel model;
    private final Label open = Controls.text("", "faint");
    private final Button ask;
    private final Button demo;
    private final Label recentTitle = Controls.text("Opened before", "side-title");
    private final VBox recent = new VBox(2);

    StartPage(WindowModel model, Actions actions) {
        this.model = model;
        setId("start-page");
        getStyleClass().add("plain-scroll");
        setFitToWidth(true);
        setFocusTraversable(false);
        ask =
                Controls.button(
                        "start-ask",
                        "Ask: sample[1] on J1.3",
                        "Puts this question into the fields above, and asks it",
                        this::ask);
        demo = Controls.button(actions.get("demo"), "Open the demo");
        demo.setId("start-demo");
        Button own = Controls.button(actions.get("open"), "Open your design…");
        own.setId("start-open");
        Button lesson = Controls.button(actions.get("first-lesson"));
        lesson.setId("start-lesson");
        open.setId("start-what-is-open");
        recent.setId("start-recent");
        getStyleClass().add("start-page");
        setContent(
                new VBox(
                        12,
                        Controls.text("To see an inner net at the bench", "side-title"),
                        Controls.text(
                                "Padward is for the engineer who has a finished design and must"
                                        + " see one of its nets at a pin. It finds the route from the"
                                        + " net to a pad, says what blocks it and what that costs, and"
                                        + " tells which delay the instrument will see. The design's"
                                        + " file is never changed."),
                        open,
                        new FlowPane(8, 8, ask, demo, own, lesson),
                        recentTitle,
                        recent));
        model.recentFiles().items().addListener((ListChangeListener<String>) c -> showRecent());
        showRecent();
    }

    /** Whether it is to be shown: nothing is open, or the demo, and nothing was asked. */
    boolean isWanted() {
        boolean asked =
                model.shown().answerProperty().get().isPresent()
                        || model.shown().surveyProperty().get().isPresent()
                        || !model.shown().question().toAskedText().isEmpty();
        return !asked && (model.openedProperty().get().isEmpty() || hasDemo());
    }

    private boolean hasDemo() {
        Optional<Design> design = model.openedProperty().get().map(OpenDesign::design);
        return model.design().isDemo()
                && design.filter(
                                d -> d.findNet(NET).isPresent() && !PadNames.find(d, PAD).isEmpty())
                        .isPresent();
    }

    /** Adapts to what is open. */
    void update() {
        boolean there = hasDemo();
        open.setText(
                there
                        ? "Open now: the demo, an invented controller of a bilge pump, with its board."
                        : "Nothing is open.");
        shown(ask, there);
        shown(demo, !there);
    }

    private void ask() {
        model.shown().netTextProperty().set(NET);
        model.shown().padTextProperty().set(PAD);
        model.shown().ask();
    }

    private void showRecent() {
        recent.getChildren().clear();
        model.recentFiles().items().stream().limit(MOST_FILES).forEach(this::addRecent);
        boolean any = !recent.getChildren().isEmpty();
        recentTitle.setVisible(any);
        recentTitle.setManaged(any);
    }

    private void addRecent(String file) {
        Path path = Path.of(file);
        Hyperlink link = new Hyperlink(path.getFileName().toString());
        link.setMnemonicParsing(false);
        link.setTooltip(new Tooltip(file));
        link.setAccessibleText("Open " + file);
        link.setOnAction(
                e -> {
                    if (Files.exists(path)) {
                        model.open(path);
                    } else {
                        model.recentFiles().forget(file);
                        model.notes().add(this, file + " no longer exists.");
                    }
                });
        recent.getChildren().add(link);
    }

    private static void shown(Button button, boolean on) {
        button.setVisible(on);
        button.setManaged(on);
    }
}
