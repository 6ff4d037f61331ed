package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.lang.ref.WeakReference;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.util.WaitForAsyncUtils;
import padward.ui.model.WindowModel;

/** A window that was closed leaves nothing behind, with whatever was done in it. */
@ExtendWith(ApplicationExtension.class)
class ClosedWindowTest {
    /** The last window may be kept by the toolkit, as what had the focus last; no more. */
    private static final int WINDOWS = 4;

    private static final int TRIES = 40;

    private static final List<String> PANELS =
            List.of("nets", "steps", "lessons", "exercises", "kept", "group", "watch", "routes");

    @Test
    void itIsCollected(FxRobot robot) throws Exception {
        requireCollected(robot, Stage::new);
    }

    /** As the tests do, whose windows are all in one stage. */
    @Test
    void whatAStageShowedBeforeIsCollected(FxRobot robot) throws Exception {
        Stage[] only = new Stage[1];
        robot.interact(() -> only[0] = new Stage());
        requireCollected(robot, () -> only[0]);
    }

    private static void requireCollected(FxRobot robot, Supplier<Stage> stages) throws Exception {
        List<Map<String, WeakReference<Object>>> closed = new ArrayList<>();
        for (int i = 0; i < WINDOWS; i++) {
            closed.add(openUseAndClose(robot, stages));
        }
        Map<String, WeakReference<Object>> first = closed.get(0);
        for (int i = 0; i < TRIES && first.values().stream().anyMatch(r -> r.get() != null); i++) {
            System.gc();
            WaitForAsyncUtils.waitForFxEvents();
            Thread.sleep(20);
        }
        first.forEach((what, kept) -> assertThat(kept.get()).as(what).isNull());
    }

    private static Map<String, WeakReference<Object>> openUseAndClose(
            FxRobot robot, Supplier<Stage> stages) {
        Map<String, WeakReference<Object>> parts = new LinkedHashMap<>();
        Stage[] shown = new Stage[1];
        WindowModel[] model = new WindowModel[1];
        robot.interact(
                () -> {
                    shown[0] = stages.get();
                    model[0] = OpenWindow.show(shown[0]);
                    model[0].open(Path.of("fixtures/small/only.design.json"));
                });
        robot.interact(
                () -> {
                    model[0].shown().netTextProperty().set("pump/level/sample[1]");
                    model[0].shown().padTextProperty().set("J1.3");
                    model[0].shown().ask();
                });
        for (String panel : PANELS) {
            robot.interact(() -> OpenWindow.actions(shown[0]).get("show-" + panel).run());
            WaitForAsyncUtils.waitForFxEvents();
        }
        parts.put("the model", new WeakReference<>(model[0]));
        parts.put("the design", new WeakReference<>(model[0].openedProperty().get().orElseThrow()));
        parts.put("the controls", new WeakReference<>(shown[0].getScene().getRoot()));
        parts.put("the scene", new WeakReference<>(shown[0].getScene()));
        robot.interact(() -> shown[0].close());
        WaitForAsyncUtils.waitForFxEvents();
        return parts;
    }
}
