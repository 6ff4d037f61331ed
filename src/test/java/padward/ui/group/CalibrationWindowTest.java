package padward.ui.group;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import javafx.event.ActionEvent;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.layout.GridPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.change.LedgerEntry;
import padward.change.LedgerLead;
import padward.ui.OpenWindow;
import padward.ui.model.WindowModel;

/** A calibration in the window, from the net to the delays in the ledger and back. */
@ExtendWith(ApplicationExtension.class)
class CalibrationWindowTest {
    private static final String PADS = "J1.1, J1.2, J1.4";

    @TempDir private Path folder;
    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        stage.setWidth(1280);
        stage.setHeight(900);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    private List<LedgerEntry> entries() {
        return model.keptProperty().get().orElseThrow().entries();
    }

    private static void selectGroup(FxRobot robot) {
        robot.interact(
                () -> {
                    TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
                    tabs.getTabs().stream()
                            .filter(t -> t.getId().equals("group-tab"))
                            .forEach(t -> tabs.getSelectionModel().select(t));
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void type(FxRobot robot, String field, String text) {
        robot.interact(() -> robot.lookup(field).queryAs(TextField.class).setText(text));
    }

    private static void press(FxRobot robot, String button) {
        robot.interact(() -> robot.lookup(button).queryAs(Button.class).fire());
        WaitForAsyncUtils.waitForFxEvents();
    }

    private void keep(FxRobot robot) {
        press(robot, "#calibration-route");
        CheckBox accept = robot.lookup("#calibration-accept").queryAs(CheckBox.class);
        Button keep = robot.lookup("#calibration-keep").queryAs(Button.class);
        if (accept.isVisible()) {
            assertThat(keep.isDisabled()).as("before anything is accepted").isTrue();
            robot.interact(() -> accept.setSelected(true));
        }
        assertThat(keep.isDisabled()).isFalse();
        press(robot, "#calibration-keep");
    }

    @Test
    void linesAreMeasuredAndUndone(FxRobot robot) throws Exception {
        selectGroup(robot);
        Node steps = robot.lookup("#calibration").query();
        assertThat(steps.isVisible()).isFalse();
        robot.interact(
                () ->
                        robot.lookup("#group-calibrate")
                                .queryAs(ToggleButton.class)
                                .setSelected(true));
        assertThat(steps.isVisible()).isTrue();
        type(robot, "#group-pads", PADS);
        type(robot, "#calibration-net", "pump/run/hold");
        int before = entries().size();
        press(robot, "#calibration-route");
        assertThat(robot.lookup("#calibration-outcome").queryAs(Label.class).getText())
                .startsWith("pump/run/hold reaches 3 of 3 pads: J1.1, J1.2, J1.4.");
        take(robot, "calibration-routed");
        keep(robot);
        assertThat(entries()).hasSize(before + 1);
        // The second is 640 ps later than the first, the third 210 ps earlier.
        type(robot, "#calibration-capture", capture().toString());
        robot.interact(
                () -> {
                    TextField rate =
                            (TextField) robot.lookup("#calibration-sample .text-field").query();
                    rate.setText("10000");
                    rate.commitValue();
                    rate.fireEvent(new ActionEvent());
                });
        assertThatItIsSeenWhole(robot, "#calibration-sample .text-field");
        press(robot, "#calibration-read");
        List<String> texts =
                robot.lookup("#calibration-readings").queryAs(GridPane.class).getChildren().stream()
                        .map(n -> ((Label) n).getText())
                        .toList();
        assertThat(texts)
                .contains("+0.000 ns ± 0.050 ns", "+0.640 ns ± 0.050 ns", "-0.210 ns ± 0.050 ns");
        // Where the test has its file is of no interest in a picture.
        type(robot, "#calibration-capture", "capture.csv");
        take(robot, "calibration-read");
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(true));
        take(robot, "calibration-dark");
        robot.interact(
                () -> robot.lookup("#dark-button").queryAs(ToggleButton.class).setSelected(false));
        assertThat(measured()).isEmpty();
        press(robot, "#calibration-use");
        List<Integer> ps = measured().stream().map(LedgerLead.Measured::ps).toList();
        assertThat(ps.get(1) - ps.get(0)).isEqualTo(640);
        assertThat(ps.get(2) - ps.get(0)).isEqualTo(-210);
        robot.interact(model::undo);
        assertThat(measured()).isEmpty();
        robot.interact(model::undo);
        assertThat(entries()).hasSize(before);
        // The real net on the same pads: what was read is still known, and carries over.
        type(robot, "#calibration-net", "pump/level/sample[0]");
        keep(robot);
        press(robot, "#calibration-use");
        assertThat(measured())
                .hasSize(3)
                .allSatisfy(m -> assertThat(m.tolerancePs()).isGreaterThan(50));
    }

    private static void assertThatItIsSeenWhole(FxRobot robot, String field) {
        WaitForAsyncUtils.waitForFxEvents();
        TextField shown = robot.lookup(field).queryAs(TextField.class);
        double text = shown.lookup(".text").getLayoutBounds().getWidth();
        double room = shown.getWidth() - shown.snappedLeftInset() - shown.snappedRightInset();
        assertThat(room).as(shown.getText()).isGreaterThanOrEqualTo(text);
    }

    @Test
    void whatIsMissingIsSaid(FxRobot robot) {
        selectGroup(robot);
        type(robot, "#calibration-capture", "nothing.vcd");
        press(robot, "#calibration-read");
        assertThat(model.notes().all())
                .anySatisfy(
                        n -> assertThat(n.text()).contains("brings one net out on several pads"));
        type(robot, "#calibration-net", "no/such/net");
        type(robot, "#group-pads", PADS);
        press(robot, "#calibration-route");
        assertThat(model.notes().all())
                .anySatisfy(n -> assertThat(n.text()).contains("no/such/net"));
    }

    private List<LedgerLead.Measured> measured() {
        return entries().stream()
                .flatMap(e -> e.leads().stream())
                .flatMap(l -> l.measured().stream())
                .toList();
    }

    private Path capture() throws Exception {
        List<Integer> channels =
                entries().get(entries().size() - 1).leads().stream()
                        .map(LedgerLead::channel)
                        .toList();
        StringBuilder text = new StringBuilder("time_ps");
        channels.forEach(c -> text.append(",ch").append(c));
        text.append("\n0,0,0,0\n");
        for (int change = 1; change <= 10; change++) {
            int now = change % 2;
            int at = 100_000 * change;
            int was = 1 - now;
            text.append(at - 210 + "," + was + "," + was + "," + now + "\n");
            text.append(at + "," + now + "," + was + "," + now + "\n");
            text.append(at + 640 + "," + now + "," + now + "," + now + "\n");
        }
        return Files.writeString(folder.resolve("capture.csv"), text);
    }

    private void take(FxRobot robot, String name) throws Exception {
        WaitForAsyncUtils.waitForFxEvents();
        if (!System.getProperty("pictures", "").isEmpty()) {
            robot.interact(() -> robot.lookup("#group").queryAs(ScrollPane.class).setVvalue(0));
            OpenWindow.take(robot, stage, name);
        }
    }
}
