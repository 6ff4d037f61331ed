package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import javafx.scene.control.Button;
import javafx.scene.control.ListView;
import javafx.scene.control.TableView;
import javafx.scene.control.TreeTableView;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.FlowPane;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.breakout.ask.Answer;
import padward.ui.design.OpenDesign;
import padward.ui.model.WindowModel;
import padward.ui.nets.NetRow;
import padward.ui.work.BackgroundWork;

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
        model = PadwardApp.show(stage, BackgroundWork.immediate());
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

    /** Many names are counted, and as many are offered as can be looked through. */
    @Test
    void ofManyNamesTheFirstAreOfferedAndAllAreCounted(FxRobot robot) {
        ask(robot, "*", "J1.2");
        int all = model.openedProperty().get().orElseThrow().design().nets().size();
        assertThat(all).isGreaterThan(12);
        assertThat(sentence(robot)).startsWith("“*” matches " + all + " nets.");
        assertThat(buttons(robot)).hasSizeBetween(4, 12);
        assertThat(buttons(robot)).extracting(Button::getText).doesNotHaveDuplicates();
        robot.interact(() -> robot.lookup("#as-group").queryButton().fire());
        assertThat(model.groupNetsProperty().get()).isEqualTo("*");
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
    void aHeaderAsPadAsksForAnyOfItsPins(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "j1");
        assertThat(model.shown().offersProperty().getValue()).isEmpty();
        TableView<Answer> table = robot.lookup("#routes-table").queryTableView();
        assertThat(table.getItems())
                .hasSize(4)
                .allMatch(
                        a -> a.question().attached().stream().anyMatch(t -> t.name().equals("J1")));
        assertThat(robot.lookup("#answer-headline").queryLabeled().getText())
                .startsWith("4 pads, ")
                .contains("; best: Open to pin E1 (DBG0) in 2.420–3.980\u00a0ns.");
        assertThat(model.shown().question().title()).isEqualTo("sample[1] on any pad of j1");
        assertThat(model.shown().previewProperty().get()).as("the best on the map").isPresent();
        ask(robot, "pump/level/sample[1]", "bank A");
        assertThat(table.getItems()).isNotEmpty().hasSizeLessThan(48);
        ask(robot, "pump/level/sample[1]", "E*");
        assertThat(table.getItems())
                .isNotEmpty()
                .allMatch(a -> !a.question().padValue().packagePin().isEmpty());
        ask(robot, "pump/level/sample[1]", "");
        assertThat(table.getItems()).hasSize(48);
    }

    @Test
    void aPadAloneAsksWhichOfTheListedNetsReachIt(FxRobot robot) {
        ask(robot, "", "J1.2");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(model.shown().offersProperty().getValue()).isEmpty();
        assertThat(robot.lookup("#nets-count").queryLabeled().getText())
                .isEqualTo("13 nets, which of them reach pad x7y2/pad[1]");
        @SuppressWarnings("unchecked")
        TreeTableView<NetRow> table = robot.lookup("#nets-table").queryAs(TreeTableView.class);
        assertThat(model.shown().question().title()).isEqualTo("any net on J1.2");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(table.getColumns().get(1).getText()).isEqualTo("to the pad");
        int[] row = new int[1];
        robot.interact(
                () -> {
                    for (int i = 0; i < table.getExpandedItemCount(); i++) {
                        if (table.getTreeItem(i).getValue().name().equals("alarm/beep")) {
                            row[0] = i;
                        }
                    }
                });
        assertThat(table.getColumns().get(1).getCellData(row[0]).toString()).startsWith("Open, ");
        robot.interact(
                () -> {
                    table.getSelectionModel().select(row[0]);
                    table.requestFocus();
                });
        robot.push(KeyCode.ENTER);
        assertThat(model.shown().answerProperty().get().orElseThrow().question().net().name())
                .isEqualTo("alarm/beep");
    }

    @Test
    void namesOfAnotherDesignAreNotOffered(FxRobot robot) {
        ask(robot, "pump/level/sample[1]", "J1.2");
        ask(robot, "alarm/beep", "J1.2");
        robot.interact(() -> model.open(Path.of("fixtures/small/around.design.json")));
        assertThat(robot.listWindows()).as("no list opens by itself").hasSize(1);
        robot.interact(() -> robot.lookup("#net-field").query().requestFocus());
        robot.push(KeyCode.DOWN);
        WaitForAsyncUtils.waitForFxEvents();
        ListView<?> list =
                Window.getWindows().stream()
                        .map(w -> w.getScene().getRoot().lookup(".completions"))
                        .filter(n -> n != null)
                        .map(n -> (ListView<?>) n)
                        .findFirst()
                        .orElseThrow();
        OpenDesign opened = model.openedProperty().get().orElseThrow();
        assertThat(list.getItems())
                .isNotEmpty()
                .allMatch(n -> opened.netNames().stream().anyMatch(n::equals));
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
    void withoutAnythingItAsksForANet(FxRobot robot) {
        ask(robot, "", "");
        assertThat(sentence(robot)).startsWith("Which net?");
        assertThat(buttons(robot)).isEmpty();
    }
}
