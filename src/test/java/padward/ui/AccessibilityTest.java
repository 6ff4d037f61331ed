package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javafx.scene.AccessibleRole;
import javafx.scene.Node;
import javafx.scene.Parent;
import javafx.scene.control.Button;
import javafx.scene.control.Labeled;
import javafx.scene.control.Spinner;
import javafx.scene.control.TabPane;
import javafx.scene.layout.BackgroundFill;
import javafx.scene.layout.Region;
import javafx.scene.paint.Color;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.control.Themes;
import padward.ui.model.WindowModel;

/** For readers with ears, and with little sight. */
@ExtendWith(ApplicationExtension.class)
class AccessibilityTest {
    /** Least contrast of text: W3C, WCAG 2.2, success criterion 1.4.3. */
    private static final double LEAST = 4.5;

    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    /** What a screen reader is given: a role, and something to say. */
    @Test
    void everyControlOfEveryPanelHasANameAndARole(FxRobot robot) {
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J2.1");
        robot.interact(() -> model.look().reasonsProperty().set(true));
        TabPane panels = robot.lookup("#panels").queryAs(TabPane.class);
        for (int i = 0; i < panels.getTabs().size(); i++) {
            int index = i;
            robot.interact(() -> panels.getSelectionModel().select(index));
            WaitForAsyncUtils.waitForFxEvents();
            List<String> mute = new ArrayList<>();
            collect(stage.getScene().getRoot(), mute);
            assertThat(mute).as(panels.getTabs().get(i).getText()).isEmpty();
        }
    }

    @Test
    void theComparisonIsToldToo(FxRobot robot) {
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J2.1");
        robot.interact(
                () -> {
                    OpenWindow.actions(stage).get("show-routes").run();
                    robot.lookup("#routes-table")
                            .queryTableView()
                            .getSelectionModel()
                            .selectIndices(1, 2);
                    robot.lookup("#routes-compare").queryAs(Button.class).fire();
                });
        assertThat(robot.lookup("#comparison-back").tryQuery()).isPresent();
        assertTold(stage.getScene().getRoot(), "comparison");
    }

    @Test
    void theStartPageIsToldToo(FxRobot robot) {
        Stage[] empty = new Stage[1];
        robot.interact(
                () -> {
                    empty[0] = new Stage();
                    OpenWindow.show(empty[0]);
                });
        assertThat(robot.from(empty[0].getScene().getRoot()).lookup("#start-page").tryQuery())
                .isPresent();
        assertTold(empty[0].getScene().getRoot(), "start page");
        robot.interact(empty[0]::hide);
    }

    @Test
    void sheetAndPreferencesAreToldToo(FxRobot robot) {
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J1.2");
        robot.interact(
                () -> {
                    model.shown().tryIt();
                    model.keep();
                });
        for (String window :
                List.of(
                        "sheet",
                        "preferences",
                        "help",
                        "about",
                        "deskew",
                        "import",
                        "place-route")) {
            List<Window> before = List.copyOf(Window.getWindows());
            robot.interact(() -> OpenWindow.actions(stage).get(window).run());
            WaitForAsyncUtils.waitForFxEvents();
            List<Window> opened =
                    Window.getWindows().stream().filter(w -> !before.contains(w)).toList();
            assertThat(opened).as(window).hasSize(1);
            assertTold(opened.get(0).getScene().getRoot(), window);
            robot.interact(opened.get(0)::hide);
        }
    }

    private static void assertTold(Node root, String what) {
        WaitForAsyncUtils.waitForFxEvents();
        List<String> mute = new ArrayList<>();
        collect(root, mute);
        assertThat(mute).as(what).isEmpty();
    }

    private static void collect(Node node, List<String> mute) {
        if (!node.isVisible()) {
            return;
        }
        if (node.isFocusTraversable()) {
            AccessibleRole role = node.getAccessibleRole();
            boolean named =
                    !blank(node.getAccessibleText())
                            || node instanceof Labeled labeled && !blank(labeled.getText());
            boolean own = role == AccessibleRole.NODE || role == AccessibleRole.PARENT;
            if (!named || role == null || own && blank(node.getAccessibleText())) {
                mute.add(node + " " + role);
            }
        }
        if (node instanceof Parent parent && !(node instanceof Spinner)) {
            parent.getChildrenUnmodifiable().forEach(c -> collect(c, mute));
        }
    }

    private static boolean blank(String text) {
        return text == null || text.isBlank();
    }

    @Test
    void theFocusIsSeenOnButtonsOfBothThemes(FxRobot robot) {
        for (boolean dark : new boolean[] {false, true}) {
            robot.interact(() -> model.look().darkProperty().set(dark));
            for (String id : List.of("#ask-button", "#side-button", "#layers-button")) {
                Region button = (Region) robot.lookup(id).query();
                double before = button.getWidth();
                robot.interact(button::requestFocus);
                WaitForAsyncUtils.waitForFxEvents();
                assertThat(button.getBorder()).as(id + dark).isNotNull();
                assertThat(button.getBorder().getStrokes()).isNotEmpty();
                assertThat(button.getWidth()).as("nothing moves").isEqualTo(before);
            }
        }
    }

    /** Text of the style sheet against what it stands on. */
    @Test
    void theStyleSheetHasContrast() throws Exception {
        String sheet;
        try (var in = Themes.class.getResourceAsStream("window.css")) {
            sheet = new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
        Matcher block =
                Pattern.compile("([^{}]+)\\{([^}]*)}")
                        .matcher(sheet.replaceAll("(?s)/\\*.*?\\*/", ""));
        Map<String, Double> poor = new LinkedHashMap<>();
        int seen = 0;
        while (block.find()) {
            String selector = block.group(1).strip();
            Color text = color(block.group(2), "-fx-text-fill");
            if (text == null || selector.contains(".label")) {
                continue;
            }
            Color ground = color(block.group(2), "-fx-background-color");
            if (ground == null || ground.getOpacity() < 0.5) {
                ground = Color.web(selector.contains("dark") ? "#1f2733" : "#faf8f4");
            }
            seen++;
            double contrast = contrast(text, ground);
            if (contrast < LEAST) {
                poor.put(selector, contrast);
            }
        }
        assertThat(seen).isGreaterThan(12);
        assertThat(poor).isEmpty();
    }

    /** Names that are offered lie over the window, but look as it does. */
    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void offeredNamesAreLegible(boolean dark, FxRobot robot) {
        robot.interact(() -> model.look().darkProperty().set(dark));
        robot.interact(() -> robot.lookup("#pad-field").query().requestFocus());
        robot.write("x", 0);
        WaitForAsyncUtils.waitForFxEvents();
        Labeled more = robot.lookup(".completions-more").queryAs(Labeled.class);
        assertThat(more.getText()).startsWith("… and ");
        Color ground = ground(robot.lookup(".completion-list").queryAs(Region.class));
        assertThat(contrast((Color) more.getTextFill(), ground)).isGreaterThan(LEAST);
        Labeled name = (Labeled) robot.lookup(".completions").query().lookup(".list-cell");
        assertThat(contrast((Color) name.getTextFill(), ground(name))).isGreaterThan(LEAST);
        Color window = ground((Region) stage.getScene().getRoot());
        assertThat(contrast(window, ground)).as("as dark as the window").isLessThan(1.5);
        assertThat(contrast(window, ground(name))).as("as dark as the window").isLessThan(1.5);
    }

    /** The uppermost colour behind a control's content. */
    private static Color ground(Region region) {
        List<BackgroundFill> fills = region.getBackground().getFills();
        return (Color) fills.get(fills.size() - 1).getFill();
    }

    private static Color color(String block, String property) {
        Matcher found = Pattern.compile(property + ":\\s*(#[0-9a-fA-F]{6,8})").matcher(block);
        return found.find() ? Color.web(found.group(1)) : null;
    }

    private static double contrast(Color one, Color other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(Color color) {
        return 0.2126 * linear(color.getRed())
                + 0.7152 * linear(color.getGreen())
                + 0.0722 * linear(color.getBlue());
    }

    private static double linear(double channel) {
        return channel <= 0.04045 ? channel / 12.92 : Math.pow((channel + 0.055) / 1.055, 2.4);
    }

    /** The answer, its buttons and all panels are there in full at large text. */
    @Test
    void nothingIsLostAtLargeText(FxRobot robot) {
        robot.interact(() -> model.look().setTextSize(20));
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J1.3");
        robot.interact(model.shown()::tryIt);
        WaitForAsyncUtils.waitForFxEvents();
        Region headline = (Region) robot.lookup("#answer-headline").query();
        assertThat(headline.getHeight())
                .isGreaterThanOrEqualTo(Math.floor(headline.prefHeight(headline.getWidth())) - 1);
        for (String id :
                List.of("#keep-button", "#drop-button", "#ask-button", "#what-if-accept")) {
            Region button = (Region) robot.lookup(id).query();
            var at = button.localToScene(button.getLayoutBounds());
            assertThat(at.getMaxX()).as(id).isLessThanOrEqualTo(1280.5);
            assertThat(at.getMaxY()).as(id).isLessThanOrEqualTo(800.5);
            assertThat(at.getMinY()).as(id).isGreaterThanOrEqualTo(0);
            if (button instanceof Button one) {
                assertThat(one.getWidth()).as(id).isGreaterThanOrEqualTo(one.minWidth(-1) - 1);
            }
        }
        Region map = (Region) robot.lookup("#map").query();
        assertThat(map.getHeight()).isGreaterThanOrEqualTo(120);
    }
}
