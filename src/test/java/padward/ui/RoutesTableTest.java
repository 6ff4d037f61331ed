package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.input.Clipboard;
import javafx.scene.input.KeyCode;
import javafx.scene.text.Text;
import javafx.stage.Stage;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.breakout.ask.Answer;
import padward.fabric.delay.Corner;
import padward.ui.model.AppearanceModel;
import padward.ui.model.WindowModel;

/** The list of pads: its head, filter, order and what can be copied from it. */
@ExtendWith(ApplicationExtension.class)
class RoutesTableTest {
    private WindowModel model;

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @BeforeEach
    void ask(FxRobot robot) {
        ask(robot, "pump/level/sample[1]");
    }

    private void ask(FxRobot robot, String net) {
        robot.interact(
                () -> {
                    model.shown().netTextProperty().set(net);
                    model.shown().padTextProperty().set("J1.2");
                    model.shown().ask();
                });
    }

    private static String title(FxRobot robot) {
        return robot.lookup("#routes-title").queryLabeled().getText();
    }

    @SuppressWarnings("unchecked")
    private static TableView<Answer> table(FxRobot robot) {
        return robot.lookup("#routes-table").queryAs(TableView.class);
    }

    private static TableColumn<Answer, ?> column(FxRobot robot, String head) {
        return table(robot).getColumns().stream()
                .filter(c -> c.getText().equals(head))
                .findFirst()
                .orElseThrow();
    }

    @Test
    void theHeadNamesTheNetAndCountsItsPads(FxRobot robot) {
        long open = table(robot).getItems().stream().filter(a -> a instanceof Answer.Open).count();
        assertThat(title(robot)).isEqualTo("sample[1]: 48 pads, " + open + " open, best first");
    }

    @Test
    void theFilterFindsHeadersBanksAndPins(FxRobot robot) {
        TextField text = robot.lookup("#routes-filter-text").queryAs(TextField.class);
        robot.interact(() -> text.setText("j1"));
        assertThat(table(robot).getItems())
                .isNotEmpty()
                .allMatch(
                        a -> a.question().attached().stream().anyMatch(t -> t.name().equals("J1")));
        assertThat(title(robot)).contains(" of 48 pads");
        robot.interact(() -> text.setText("bank A"));
        assertThat(table(robot).getItems())
                .isNotEmpty()
                .allMatch(a -> a.question().padValue().bank().equals("A"));
        robot.interact(() -> text.setText("3.3v < 4.0"));
        assertThat(table(robot).getItems())
                .isNotEmpty()
                .allMatch(a -> a.findRoute().orElseThrow().total().slowPs() < 4000);
        robot.interact(() -> text.setText("1.8 V"));
        assertThat(table(robot).getItems()).isEmpty();
        robot.interact(() -> text.setText("D7"));
        assertThat(table(robot).getItems()).hasSize(1);
        ChoiceBox<?> choice = robot.lookup("#routes-filter").queryAs(ChoiceBox.class);
        robot.interact(() -> choice.getSelectionModel().select(1));
        assertThat(table(robot).getItems()).isEmpty();
    }

    @Test
    void anOrderIsToldAndEndsWithTheNet(FxRobot robot) {
        TableColumn<Answer, ?> delay = column(robot, "delay, ns");
        robot.interact(() -> table(robot).getSortOrder().add(delay));
        assertThat(title(robot)).endsWith("by delay, ns");
        var items = table(robot).getItems();
        assertThat(items.get(0).findRoute()).isPresent();
        assertThat(items.get(items.size() - 1).findRoute()).as("no route: last").isEmpty();
        ask(robot, "pump/level/sample[1]");
        assertThat(title(robot)).as("the same net again").endsWith("by delay, ns");
        ask(robot, "pump/level/hi_sync");
        assertThat(title(robot)).startsWith("hi_sync: ").endsWith("best first");
    }

    @Test
    void selectedRowsAreCopiedWithTheirHeads(FxRobot robot) {
        robot.interact(
                () -> {
                    column(robot, "rank").setVisible(false);
                    table(robot).requestFocus();
                    table(robot).getSelectionModel().selectIndices(0, 1);
                });
        robot.press(KeyCode.CONTROL, KeyCode.C).release(KeyCode.C, KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
        String[] copied = new String[1];
        robot.interact(() -> copied[0] = Clipboard.getSystemClipboard().getString());
        String[] lines = copied[0].split("\r\n");
        assertThat(lines).hasSize(3);
        assertThat(lines[0])
                .startsWith("pin,header,answer,\"delay, ns\",pad,")
                .doesNotContain("rank");
        assertThat(lines[1])
                .startsWith(
                        table(robot).getItems().get(0).question().padValue().packagePin() + ",");
    }

    @Test
    void columnsStayAsTheyWereLeftAndPinsStayInSight(FxRobot robot) {
        robot.interact(
                () -> {
                    column(robot, "pin").setVisible(false);
                    column(robot, "answer").setVisible(false);
                    table(robot).resizeColumn(column(robot, "header"), 30);
                });
        assertThat(column(robot, "pin").isVisible()).as("a pin is always wanted").isTrue();
        List<AppearanceModel.Column> kept = model.look().columns().get("routes-table");
        assertThat(kept)
                .filteredOn(c -> c.head().equals("answer"))
                .singleElement()
                .matches(c -> !c.shown());
        assertThat(kept)
                .filteredOn(c -> c.head().equals("header"))
                .singleElement()
                .matches(c -> Math.abs(c.width() - 102) < 1);
        robot.interact(() -> item(robot, "Columns as at first").fire());
        assertThat(column(robot, "answer").isVisible()).isTrue();
        robot.interact(() -> item(robot, "Fit columns to their texts").fire());
        assertThat(column(robot, "rank").getWidth()).isGreaterThan(100);
    }

    @Test
    void rowsOfferWhatCanBeDoneWithThem(FxRobot robot) {
        robot.interact(() -> table(robot).getSelectionModel().selectIndices(0, 1));
        robot.interact(() -> item(robot, "Let the group use these pads").fire());
        assertThat(model.groupPadsProperty().get())
                .isEqualTo(
                        table(robot).getItems().get(0).question().padValue().name()
                                + ", "
                                + table(robot).getItems().get(1).question().padValue().name());
        robot.interact(() -> item(robot, "Ask in a new tab").fire());
        assertThat(model.questions().all()).hasSize(2);
    }

    @SuppressWarnings("unchecked")
    private static TableView<Object> comparison(FxRobot robot) {
        return robot.lookup("#comparison-table").queryAs(TableView.class);
    }

    private static String compared(FxRobot robot, String what, int pad) {
        TableView<Object> table = comparison(robot);
        for (int row = 0; row < table.getItems().size(); row++) {
            if (table.getColumns().get(0).getCellData(row).equals(what)) {
                return (String) table.getColumns().get(1 + pad).getCellData(row);
            }
        }
        throw new AssertionError("no row " + what);
    }

    private static int indexOf(FxRobot robot, String pin) {
        var items = table(robot).getItems();
        for (int i = 0; i < items.size(); i++) {
            if (items.get(i).question().padValue().packagePin().equals(pin)) {
                return i;
            }
        }
        throw new AssertionError("no pin " + pin);
    }

    /** E2 is free and on J1.2; D7 has the motor's port, and U7 listens there. */
    @Test
    void twoPadsAreComparedSideBySide(FxRobot robot) {
        assertThat(robot.lookup("#routes-compare").query().isDisabled()).isTrue();
        int free = indexOf(robot, "E2");
        int used = indexOf(robot, "D7");
        robot.interact(() -> table(robot).getSelectionModel().selectIndices(free, used));
        robot.clickOn("#routes-compare");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(comparison(robot).getColumns().stream().map(TableColumn::getText))
                .containsExactly("pad", "E2, J1.2", "D7, J1.3");
        assertThat(compared(robot, "answer", 0)).isEqualTo("Open");
        assertThat(compared(robot, "answer", 1)).isEqualTo("Blocked");
        assertThat(compared(robot, "delay, ns", 0)).isEqualTo("2.420–3.980");
        assertThat(compared(robot, "price", 1)).contains("Port motor loses its pad");
        assertThat(compared(robot, "what follows", 0)).isEqualTo("nothing");
        assertThat(compared(robot, "what follows", 1)).contains("U7");
        assertThat(compared(robot, "obstacles", 0)).isEqualTo("none");
        assertThat(compared(robot, "obstacles", 1)).contains("pump/run/motor_out");
        assertThat(compared(robot, "header pin", 1)).isEqualTo("J1.3");
        assertThat(compared(robot, "bank, supply", 0)).contains("3.3 V");
        robot.interact(
                () -> {
                    comparison(robot).requestFocus();
                    comparison(robot).getSelectionModel().selectAll();
                });
        robot.press(KeyCode.CONTROL, KeyCode.C).release(KeyCode.C, KeyCode.CONTROL);
        WaitForAsyncUtils.waitForFxEvents();
        String[] copied = new String[1];
        robot.interact(() -> copied[0] = Clipboard.getSystemClipboard().getString());
        assertThat(copied[0]).startsWith("pad,\"E2, J1.2\",\"D7, J1.3\"\r\n");
        robot.clickOn("#comparison-ask-2");
        assertThat(model.shown().answerProperty().get().orElseThrow().question().padValue())
                .matches(p -> p.packagePin().equals("D7"));
        if (!robot.lookup("#comparison-table").queryAll().isEmpty()) {
            robot.interact(() -> comparison(robot).requestFocus());
            robot.push(KeyCode.ESCAPE);
        }
        assertThat(robot.lookup("#comparison-table").queryAll()).isEmpty();
        assertThat(robot.lookup("#routes-table").queryAll()).isNotEmpty();
    }

    /** Also after another size of text, and after the answers have come in with longer texts. */
    @Test
    void rowsOfAComparisonAreAsHighAsTheirText(FxRobot robot) {
        int free = indexOf(robot, "E2");
        int used = indexOf(robot, "D7");
        robot.interact(() -> table(robot).getSelectionModel().selectIndices(free, used));
        robot.clickOn("#routes-compare");
        for (int size : new int[] {14, 20, 26, 14}) {
            robot.interact(() -> model.look().setTextSize(size));
            // The next frames lay it out.
            for (int tries = 0; tries < 50 && !misfits(robot, size).isEmpty(); tries++) {
                WaitForAsyncUtils.sleep(50, TimeUnit.MILLISECONDS);
                WaitForAsyncUtils.waitForFxEvents();
            }
            assertThat(misfits(robot, size)).isEmpty();
        }
    }

    /** Rows that are not as high as their text, or whose cells are not as high as they are. */
    private static List<String> misfits(FxRobot robot, int size) {
        List<String> result = new ArrayList<>();
        for (TableRow<?> row :
                robot.from(comparison(robot))
                        .lookup(".table-row-cell")
                        .queryAllAs(TableRow.class)) {
            double text =
                    robot.from(row).lookup(".wrapped").queryAllAs(Text.class).stream()
                            .mapToDouble(t -> t.getLayoutBounds().getHeight())
                            .max()
                            .orElse(0);
            boolean fits = row.getHeight() >= text + 2 && row.getHeight() <= text + size;
            boolean filled =
                    row.getChildrenUnmodifiable().stream()
                            .map(cell -> cell.getLayoutBounds().getHeight())
                            .allMatch(high -> Math.abs(high - row.getHeight()) < 2);
            if (!row.isEmpty() && row.isVisible() && !(fits && filled)) {
                result.add(row.getIndex() + " at " + size + ": " + row.getHeight() + "/" + text);
            }
        }
        return result;
    }

    @Test
    void aComparisonEndsWithItsNet(FxRobot robot) {
        robot.interact(() -> table(robot).getSelectionModel().selectIndices(0, 1));
        robot.interact(() -> item(robot, "Compare these pads").fire());
        assertThat(robot.lookup("#comparison-table").queryAll()).isNotEmpty();
        ask(robot, "pump/level/hi_sync");
        assertThat(robot.lookup("#comparison-table").queryAll()).isEmpty();
    }

    @Test
    void aComparisonEndsWithItsCornerAndItsQuestion(FxRobot robot) {
        robot.interact(() -> table(robot).getSelectionModel().selectIndices(0, 1));
        robot.interact(() -> item(robot, "Compare these pads").fire());
        robot.interact(() -> model.shown().cornerProperty().set(Corner.FAST));
        ask(robot, "pump/level/sample[1]");
        assertThat(robot.lookup("#comparison-table").queryAll()).as("corner").isEmpty();
        robot.interact(() -> model.questions().open(""));
        robot.interact(() -> model.shown().cornerProperty().set(Corner.FAST));
        ask(robot, "pump/level/sample[1]");
        robot.interact(() -> table(robot).getSelectionModel().selectIndices(0, 1));
        robot.interact(() -> item(robot, "Compare these pads").fire());
        assertThat(robot.lookup("#comparison-table").queryAll()).isNotEmpty();
        robot.interact(() -> model.questions().step(-1));
        assertThat(robot.lookup("#comparison-table").queryAll()).as("question").isEmpty();
        assertThat(robot.lookup("#routes-table").queryAll()).isNotEmpty();
    }

    @Test
    void moreThanFourPadsAreNotComparedWithoutAWord(FxRobot robot) {
        robot.interact(() -> table(robot).getSelectionModel().selectRange(0, 6));
        robot.interact(() -> item(robot, "Compare these pads").fire());
        assertThat(comparison(robot).getColumns()).hasSize(1 + 4);
        assertThat(robot.lookup("#comparison-title").queryLabeled().getText())
                .endsWith("The first 4 of 6 selected pads are compared.");
    }

    @Test
    void anotherPadLeavesTheComparison(FxRobot robot) {
        robot.interact(() -> table(robot).getSelectionModel().selectIndices(0, 1));
        robot.interact(() -> item(robot, "Compare these pads").fire());
        robot.interact(() -> robot.lookup("#another-pad-button").queryButton().fire());
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#comparison-table").queryAll()).isEmpty();
        assertThat(robot.lookup("#routes-table").queryAll()).isNotEmpty();
    }

    /** Only where it is cut: a tooltip over each short number would be in the way. */
    @Test
    void aCutCellTellsItsText(FxRobot robot) {
        robot.interact(() -> table(robot).resizeColumn(column(robot, "rank"), -150));
        WaitForAsyncUtils.waitForFxEvents();
        for (String head : new String[] {"rank", "pin"}) {
            TableCell<?, ?> cell =
                    robot.lookup(".table-cell").queryAllAs(TableCell.class).stream()
                            .filter(c -> c.getTableColumn() == column(robot, head))
                            .filter(c -> c.getText() != null && !c.getText().isEmpty())
                            .findFirst()
                            .orElseThrow();
            robot.moveTo(cell);
            WaitForAsyncUtils.waitForFxEvents();
            if (head.equals("rank")) {
                assertThat(cell.getTooltip().getText()).isEqualTo(cell.getText());
                robot.interact(() -> cell.setText("of another row"));
                assertThat(cell.getTooltip()).as("the row before").isNull();
            } else {
                assertThat(cell.getTooltip()).isNull();
            }
        }
    }

    @Test
    void eachHeadTellsWhatItMeans(FxRobot robot) {
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(table(robot).getColumns())
                .allMatch(c -> c.getProperties().containsKey("padward-column-tip"));
    }

    private static MenuItem item(FxRobot robot, String text) {
        ContextMenu menu = table(robot).getContextMenu();
        menu.getOnShowing().handle(null);
        return menu.getItems().stream()
                .filter(i -> text.equals(i.getText()))
                .findFirst()
                .orElseThrow();
    }
}
