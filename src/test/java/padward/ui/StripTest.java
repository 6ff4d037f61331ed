package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import padward.breakout.ask.Route;
import padward.fabric.delay.Corner;
import padward.ui.model.WindowModel;
import padward.ui.scene.StripLayout;

/** The strip map of a route whose pad driver takes longer than all wires. */
@ExtendWith(ApplicationExtension.class)
class StripTest {
    private static final double STEP = 26;

    private WindowModel model;

    @Start
    void start(Stage stage) {
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @Test
    void aHopLongerThanAllOthersTogetherIsBroken(FxRobot robot) {
        OpenWindow.ask(robot, model, "pump/level/sample[1]", "J1.2");
        Route route = model.shown().route().orElseThrow();
        StripLayout strip = new StripLayout(route, Corner.SLOW, 1000, 70, STEP);
        int last = strip.count() - 1;
        assertThat(strip.broken()).hasValue(last);
        assertThat(strip.end()).isLessThanOrEqualTo(1000 - 70 + 1e-6);
        double longHop = strip.position(last) - strip.position(last - 1);
        assertThat(longHop).isLessThan((strip.end() - strip.position(0)) / 3);
        // The others are to one scale: the rest of each step is as its delay.
        double perPs = scale(route, strip, 1);
        for (int i = 2; i < last; i++) {
            if (delay(route, i) > 0) {
                assertThat(scale(route, strip, i))
                        .isCloseTo(perPs, org.assertj.core.data.Offset.offset(1e-9));
            }
        }
    }

    private static int delay(Route route, int hop) {
        return route.hops().get(hop).total().at(Corner.SLOW)
                - route.hops().get(hop - 1).total().at(Corner.SLOW);
    }

    private static double scale(Route route, StripLayout strip, int hop) {
        return (strip.position(hop) - strip.position(hop - 1) - STEP) / delay(route, hop);
    }
}
