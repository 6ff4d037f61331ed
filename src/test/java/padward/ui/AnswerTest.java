package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.MenuItem;
import javafx.stage.Stage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.map.MapView;
import padward.ui.model.WindowModel;

/** The answer: its line first, never cut; its reasons as links; nothing moves under the pointer. */
@ExtendWith(ApplicationExtension.class)
class AnswerTest {
    private static final String NET = "pump/level/sample[1]";

    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    /** The window takes the size of its scene when it is shown. */
    @BeforeEach
    void makeItSmall(FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(1024);
                    stage.setHeight(640);
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    private Label headline(FxRobot robot) {
        return robot.lookup("#answer-headline").queryAs(Label.class);
    }

    @Test
    void theLineSaysWhatIsInTheWayAndWhatItCosts(FxRobot robot) {
        OpenWindow.ask(robot, model, NET, "J1.2");
        assertThat(headline(robot).getText()).isEqualTo("to pin E2 (DBG1) in 2.420–3.980\u00a0ns");
        OpenWindow.ask(robot, model, NET, "J2.1");
        assertThat(headline(robot).getText())
                .isEqualTo(
                        "to pin B1 (AUX0) by 1 obstacle (movable); once unblocked, 2.570–4.230\u00a0ns");
        OpenWindow.ask(robot, model, NET, "J1.3");
        assertThat(headline(robot).getText())
                .startsWith("to pin D7 (MOTOR) by ")
                .contains("U7 pin 4 follows")
                .contains("port motor loses its pad");
        OpenWindow.ask(robot, model, NET, "x3y0/pad[0]");
        assertThat(headline(robot).getText()).contains("it is input-only");
    }

    @Test
    void theLineIsNeverCutAndTheMapStaysWhereItIs(FxRobot robot) {
        robot.interact(() -> model.look().reasonsProperty().set(false));
        WaitForAsyncUtils.waitForFxEvents();
        double before = mapTop(robot);
        for (String pad : List.of("J1.2", "J2.1", "J1.2", "")) {
            OpenWindow.ask(robot, model, NET, pad);
            assertThat(mapTop(robot)).as(pad).isEqualTo(before);
            assertThat(headline(robot).getWidth())
                    .as(pad)
                    .isGreaterThanOrEqualTo(Math.floor(headline(robot).prefWidth(-1)) - 1);
        }
        OpenWindow.ask(robot, model, NET, "J2.1");
        robot.interact(model.shown()::tryIt);
        assertThat(mapTop(robot)).as("a what-if").isEqualTo(before);
        assertThat(robot.lookup("#keep-button").query().isVisible()).isTrue();
    }

    private static double mapTop(FxRobot robot) {
        WaitForAsyncUtils.waitForFxEvents();
        return robot.lookup("#map").query().localToScene(0, 0).getY();
    }

    @Test
    void everyNameInTheReasonsIsALink(FxRobot robot) {
        OpenWindow.ask(robot, model, NET, "J2.1");
        assertThat(OpenWindow.reasons(robot, model))
                .contains("Every route must go through wire x1y5/run1_w[0]");
        List<Hyperlink> links =
                List.copyOf(robot.lookup("#answer-reasons .hyperlink").queryAllAs(Hyperlink.class));
        assertThat(links)
                .extracting(Hyperlink::getText)
                .contains(NET, "B1", "x1y5/run1_w[0]", "alarm/beep", "buzzer");
        Hyperlink beep = link(links, "alarm/beep");
        MapView map = robot.lookup("#map").queryAs(MapView.class);
        double there = map.viewport().centreX();
        robot.interact(beep::fire);
        assertThat(map.viewport().centreX()).isNotEqualTo(there);
        robot.interact(() -> item(beep.getContextMenu(), "Bring out this net").fire());
        assertThat(model.shown().netTextProperty().get()).isEqualTo("alarm/beep");
        robot.interact(() -> item(beep.getContextMenu(), "Add to the group").fire());
        assertThat(model.groupNetsProperty().get()).isEqualTo("alarm/beep");
        robot.interact(() -> item(link(links, "B1").getContextMenu(), "Use this pad").fire());
        assertThat(model.shown().padTextProperty().get()).isEqualTo("B1");
    }

    private static Hyperlink link(List<Hyperlink> links, String text) {
        return links.stream().filter(l -> l.getText().equals(text)).findFirst().orElseThrow();
    }

    private static MenuItem item(ContextMenu menu, String text) {
        return menu.getItems().stream()
                .filter(i -> i.getText().equals(text))
                .findFirst()
                .orElseThrow();
    }
}
