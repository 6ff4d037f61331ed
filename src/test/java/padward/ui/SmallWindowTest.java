package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import javafx.geometry.Bounds;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TabPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;

/**
 * In the smallest windows that the guide names, with a trial open and something kept: question,
 * answer, map, strip map and lists are all there, and nothing lies on anything else.
 */
@ExtendWith(ApplicationExtension.class)
class SmallWindowTest {
    private static final List<String> PARTS =
            List.of("#question-row", "#answer-part", "#map", "#strip-map", "#side", "#kept-strip");

    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @ParameterizedTest
    @CsvSource({"1280, 720, 14", "1280, 720, 18", "1024, 640, 14"})
    void everythingHasItsPlace(int width, int height, int text, FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(width);
                    stage.setHeight(height);
                    model.look().setTextSize(text);
                    ask("x7y2/pad[1]");
                    model.shown().tryIt();
                    OpenWindow.actions(stage).get("keep").run();
                    ask("J1.3");
                    model.shown().tryIt();
                });
        for (int pulse = 0; pulse < 3; pulse++) {
            WaitForAsyncUtils.waitForFxEvents();
        }
        List<Bounds> places = PARTS.stream().map(p -> place(robot.lookup(p).query())).toList();
        for (int i = 0; i < places.size(); i++) {
            Bounds place = places.get(i);
            assertThat(place.getMinX()).as(PARTS.get(i)).isGreaterThanOrEqualTo(0);
            assertThat(place.getMaxX()).as(PARTS.get(i)).isLessThanOrEqualTo(width + 0.5);
            assertThat(place.getMaxY()).as(PARTS.get(i)).isLessThanOrEqualTo(height + 0.5);
            for (int j = 0; j < i; j++) {
                assertThat(overlap(place, places.get(j)))
                        .as(PARTS.get(i) + " on " + PARTS.get(j))
                        .isLessThan(2);
            }
        }
        assertThat(places.get(2).getHeight()).as("map").isGreaterThanOrEqualTo(120);
        assertThat(places.get(3).getHeight()).as("strip map").isGreaterThanOrEqualTo(100);
        for (String button : List.of("#ask-button", "#keep-button", "#drop-button")) {
            Node node = robot.lookup(button).query();
            assertThat(place(node).getMaxX()).as(button).isLessThanOrEqualTo(width);
            Bounds said = places.get(button.equals("#ask-button") ? 0 : 4);
            assertThat(place(node).getMaxY()).as(button).isLessThanOrEqualTo(said.getMaxY() + 0.5);
        }
        if (width >= 1280) {
            assertNothingIsCutOff(robot);
        }
    }

    private void ask(String pad) {
        model.shown().netTextProperty().set("pump/level/sample[1]");
        model.shown().padTextProperty().set(pad);
        model.shown().ask();
    }

    /** The names of the design and of all panels, and the texts of buttons, stand in full. */
    private static void assertNothingIsCutOff(FxRobot robot) {
        TabPane panels = robot.lookup("#panels").queryAs(TabPane.class);
        Bounds side = place(panels);
        for (int i = 0; i < panels.getTabs().size(); i++) {
            Node tab = robot.from(panels).lookup("#" + panels.getTabs().get(i).getId()).query();
            assertThat(place(tab).getMaxX()).as(tab.getId()).isLessThanOrEqualTo(side.getMaxX());
        }
        Label name = robot.lookup("#design-name").queryAs(Label.class);
        assertThat(name.getWidth()).isGreaterThanOrEqualTo(name.prefWidth(-1) - 1);
        Stream<Button> buttons =
                robot.lookup(".button").queryAllAs(Button.class).stream()
                        .filter(b -> b.getWidth() > 0 && !b.getText().isEmpty());
        assertThat(buttons)
                .allSatisfy(
                        b ->
                                assertThat(b.getWidth())
                                        .as(b.getText())
                                        .isGreaterThanOrEqualTo(b.minWidth(-1) - 1));
    }

    private static Bounds place(Node node) {
        return node.localToScene(node.getLayoutBounds());
    }

    /** The lesser side of what two places have in common, pixels. */
    private static double overlap(Bounds one, Bounds other) {
        double wide =
                Math.min(one.getMaxX(), other.getMaxX()) - Math.max(one.getMinX(), other.getMinX());
        double high =
                Math.min(one.getMaxY(), other.getMaxY()) - Math.max(one.getMinY(), other.getMinY());
        return Math.min(wide, high);
    }
}
