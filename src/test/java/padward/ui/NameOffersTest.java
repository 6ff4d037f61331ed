package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import javafx.scene.control.Button;
import javafx.scene.layout.FlowPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import padward.breakout.ask.Answer;
import padward.ui.model.WindowModel;
import padward.ui.work.Background;

/** A name that does not mean one thing leads to names to choose from, not to an error. */
@ExtendWith(ApplicationExtension.class)
class NameOffersTest {
    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        stage.setWidth(1280);
        stage.setHeight(800);
        model = PadwardApp.show(stage, Background.immediate());
    }

    @BeforeEach
    void openTheExample(FxRobot robot) {
        robot.interact(() -> model.open(Path.of("fixtures/small/only.design.json")));
    }

    private void ask(FxRobot robot, String net, String pad) {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(net);
                    model.shown().padTextProperty().set(pad);
                    model.shown().ask();
                });
    }

    private List<Button> buttons(FxRobot robot) {
        return robot.lookup("#offered-names").queryAs(FlowPane.class).getChildren().stream()
                .map(n -> (Button) n)
                .toList();
    }

    private String sentence(FxRobot robot) {
        return robot.lookup("#offer-sentence").queryLabeled().getText();
    }

    @Test
    void aPatternOffersWhatItMatchesAndAGroup(FxRobot robot) {
        ask(robot, "pump/level/*", "J1.2");
        assertThat(sentence(robot)).startsWith("“pump/level/*” matches ").contains(" nets.");
        List<Button> offered = buttons(robot);
        assertThat(offered).extracting(Button::getText).contains("pump/level/sample[1]");
        Button one =
                offered.stream()
                        .filter(b -> b.getText().equals("pump/level/sample[1]"))
                        .findFirst()
                        .orElseThrow();
        robot.interact(one::fire);
        assertThat(model.shown().answerProperty().get()).get().isInstanceOf(Answer.Open.class);
        assertThat(model.shown().offersProperty().getValue()).isEmpty();
        assertThat(robot.lookup("#offers").query().isVisible()).isFalse();
    }

    @Test
    void asAGroupFillsThePanelAndShowsIt(FxRobot robot) {
        ask(robot, "pump/level/*", "");
        Button group = robot.lookup("#as-group").queryButton();
        robot.interact(group::fire);
        assertThat(model.groupNetsProperty().get()).isEqualTo("pump/level/*");
        assertThat(robot.lookup("#group").tryQuery()).isPresent();
    }

    @Test
    void aMisspeltNameOffersTheNearest(FxRobot robot) {
        ask(robot, "pump/level/smaple[1]", "J1.2");
        assertThat(sentence(robot)).contains("Did you mean");
        assertThat(buttons(robot)).extracting(Button::getText).contains("pump/level/sample[1]");
    }

    @Test
    void aHeaderOffersItsPins(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "j1");
        assertThat(sentence(robot)).startsWith("j1 has ");
        assertThat(buttons(robot)).extracting(Button::getText).contains("J1.2", "J1.3");
        robot.interact(buttons(robot).get(0)::fire);
        assertThat(model.shown().answerProperty().get()).isPresent();
    }

    @Test
    void theAnswerThatWasThereStays(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J1.2");
        Answer before = model.shown().answerProperty().get().orElseThrow();
        ask(robot, "pump/level/smaple[1]", "J1.2");
        assertThat(model.shown().answerProperty().get()).contains(before);
        assertThat(model.shown().asAskedProperty().getValue()).isFalse();
        assertThat(robot.lookup("#answer-quiet").queryLabeled().getText())
                .startsWith("This answers pump/level/sample[1] on J1.2.");
    }

    @Test
    void withoutANetItAsksForOne(FxRobot robot) {
        ask(robot, "", "J1.2");
        assertThat(sentence(robot)).startsWith("Which net?");
        assertThat(buttons(robot)).isEmpty();
    }
}
