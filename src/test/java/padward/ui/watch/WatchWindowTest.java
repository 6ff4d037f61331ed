package padward.ui.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Hyperlink;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Spinner;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.control.TreeTableCell;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Rectangle;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.example.TwoClocks;
import padward.ui.OpenWindow;
import padward.ui.control.LinkedText;
import padward.ui.model.WindowModel;
import padward.watch.request.CircuitSort;

/**
 * Watch circuits in the window. With {@code -Dpictures=FOLDER} it takes pictures too, in the size
 * of {@code -Dpicture.width} and {@code -Dpicture.height}.
 */
@ExtendWith(ApplicationExtension.class)
class WatchWindowTest {
    private static final String WHEN = "level/sample[1:0] == 2b11 && !beep";

    private WindowModel model;
    private Stage stage;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @Test
    void aTriggerIsAskedTriedKeptAndUndone(FxRobot robot) throws Exception {
        open(robot);
        take(robot, "watch-empty");
        byte[] before = mapPixels(robot);
        type(robot, "#watch-when", WHEN);
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Fits: 1 lookup table and 1 register on free sites, out on pin E2");
        assertThat(details(robot)).contains("The pin is 1 cycle of clk12 late.");
        assertThat(robot.lookup("#watch-diagram").query().getLayoutBounds().getWidth())
                .isGreaterThan(200);
        byte[] tried = mapPixels(robot);
        assertThat(tried).isNotEqualTo(before);
        assertThat(entries()).isZero();
        take(robot, "watch-fits");
        dark(robot, true);
        take(robot, "watch-fits-dark");
        dark(robot, false);
        type(robot, "#watch-pad", "J1.1");
        assertThat(robot.lookup("#watch-keep").queryAs(Button.class).isDisabled()).isTrue();
        assertThat(text(robot, "#watch-changed")).contains("press Enter to ask again");
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-keep");
        assertThat(entries()).isEqualTo(1);
        assertThat(model.keptProperty().get().orElseThrow().entries().get(0).note())
                .startsWith("High while");
        assertThat(
                        model.openedProperty()
                                .get()
                                .orElseThrow()
                                .design()
                                .findCell("watch/trigger1/out"))
                .isPresent();
        select(robot, "kept-tab");
        take(robot, "watch-ledger");
        select(robot, "watch-tab");
        robot.interact(model::undo);
        assertThat(entries()).isZero();
        assertThat(
                        model.openedProperty()
                                .get()
                                .orElseThrow()
                                .design()
                                .findCell("watch/trigger1/out"))
                .isEmpty();
        robot.interact(model::redo);
        assertThat(entries()).isEqualTo(1);
    }

    @Test
    void whatIsDroppedIsOffTheMap(FxRobot robot) {
        open(robot);
        byte[] before = mapPixels(robot);
        type(robot, "#watch-when", "hold");
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        byte[] tried = mapPixels(robot);
        assertThat(tried).isNotEqualTo(before);
        select(robot, "nets-tab");
        assertThat(mapPixels(robot)).isEqualTo(before);
        select(robot, "watch-tab");
        assertThat(mapPixels(robot)).isEqualTo(tried);
        fire(robot, "#watch-drop");
        assertThat(mapPixels(robot)).isEqualTo(before);
        assertThat(entries()).isZero();
    }

    @Test
    void anEmptyFieldShowsAnExampleAndItsTooltipSaysWhatItIsFor(FxRobot robot) {
        open(robot);
        List<TextField> fields =
                robot
                        .from(robot.lookup("#watch").queryAll())
                        .lookup(".text-field")
                        .queryAll()
                        .stream()
                        .map(TextField.class::cast)
                        .filter(f -> f.getId() != null)
                        .toList();
        assertThat(fields).hasSizeGreaterThan(9);
        for (TextField field : fields) {
            assertThat(field.getPromptText()).as(field.getId()).startsWith("such as ");
            assertThat(field.getTooltip().getText())
                    .as(field.getId())
                    .isEqualTo(field.getAccessibleHelp())
                    .startsWith(field.getAccessibleText());
        }
    }

    /** The fault is said at once, marked under its character, and Enter leads there. */
    @Test
    void aFaultIsMarkedAtItsCharacter(FxRobot robot) throws Exception {
        open(robot);
        type(robot, "#watch-pad", "J1.2");
        type(robot, "#watch-when", "hold && bep");
        assertThat(text(robot, "#watch-when-fault"))
                .startsWith(
                        "At character 9: this needs the name of a net or vector, but there is"
                                + " “bep”; the nearest name is “beep”");
        Rectangle mark = mark(robot);
        assertThat(mark.isVisible()).isTrue();
        double first = mark.getX();
        assertThat(first).isGreaterThan(50);
        take(robot, "watch-fault");
        robot.interact(() -> robot.lookup("#watch-pad").query().requestFocus());
        robot.push(KeyCode.ENTER);
        TextField when = robot.lookup("#watch-when").queryAs(TextField.class);
        assertThat(when.isFocused()).isTrue();
        assertThat(when.getCaretPosition()).isEqualTo(8);
        type(robot, "#watch-when", "hold &&");
        assertThat(mark(robot).isVisible()).isTrue();
        type(robot, "#watch-when", "hold && beep");
        assertThat(mark(robot).isVisible()).isFalse();
        assertThat(text(robot, "#watch-when-fault")).isBlank();
    }

    /** A fault of the whole text has no place to go to: Enter asks, and the answer says it. */
    @Test
    void aFaultWithoutAPlaceIsSaidByTheAnswer(FxRobot robot) {
        open(robot);
        type(robot, "#watch-pad", "J1.2");
        type(robot, "#watch-when", "hold && ".repeat(2000) + "hold");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).contains("this needs at most 10000 characters");
    }

    @Test
    void namesAreCompletedInsideACondition(FxRobot robot) {
        open(robot);
        TextField when = robot.lookup("#watch-when").queryAs(TextField.class);
        robot.interact(when::requestFocus);
        robot.write("!bee", 0);
        robot.push(KeyCode.DOWN).push(KeyCode.ENTER);
        assertThat(when.getText()).isEqualTo("!alarm/beep");
        robot.write(" && sampl", 0);
        robot.push(KeyCode.DOWN).push(KeyCode.ENTER);
        assertThat(when.getText()).isEqualTo("!alarm/beep && pump/level/sample[1:0]");
        robot.write(" == 2b11", 0);
        assertThat(text(robot, "#watch-when-fault")).isBlank();
    }

    @Test
    void aFaultElsewhereNamesItsField(FxRobot robot) {
        open(robot);
        type(robot, "#watch-when", "hold");
        type(robot, "#watch-pad", "J9.9");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).startsWith("Pad: this needs one pad");
        type(robot, "#watch-pad", "J1.2");
        type(robot, "#watch-clock", "hold");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith(
                        "Clock: this needs the name of a net that clocks a register (clk12), but"
                                + " there is “pump/run/hold”, which clocks none");
        type(robot, "#watch-clock", "clk13");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).startsWith("Clock: this needs the name of a net");
        type(robot, "#watch-clock", "");
        sort(robot, CircuitSort.SELECT);
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).startsWith("Nets: this needs the nets for select");
        type(robot, "#watch-nets", "beeep");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Nets: this needs the name of a net or vector, but there is “beeep”");
    }

    /** What is wrong with a condition is said in one line under it, as it is typed. */
    @ParameterizedTest
    @CsvSource(
            delimiter = ';',
            value = {
                "hold &&; this needs a net, a number or “(”, but there is the end",
                "nothing == 3; this needs the name of a net or vector, but there is “nothing”",
                "sample[1:0] == 3b101; this needs a number of 2 bits",
                "sample[1:0] == blink[0]; this needs a vector of 2 bits"
            })
    void aFaultInAConditionIsOneLine(String condition, String expected, FxRobot robot) {
        open(robot);
        type(robot, "#watch-when", condition);
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        List<String> lines =
                robot.lookup("#watch .label").queryAllAs(Label.class).stream()
                        .filter(Label::isVisible)
                        .map(Label::getText)
                        .filter(t -> t.toLowerCase(Locale.ROOT).contains(expected))
                        .toList();
        assertThat(lines).hasSize(1);
        assertThat(lines.get(0)).doesNotContain("\n");
    }

    /** What a new user tries first, in three steps: a condition, a pad, Enter. */
    @Test
    void aPinThatIsHighWhileALevelIsAboveANumber(FxRobot robot) {
        robot.interact(() -> model.open(Path.of("fixtures/workbench/design.json.gz")));
        open(robot);
        type(robot, "#watch-when", "level/state > 0x30");
        assertThat(text(robot, "#watch-when-fault"))
                .contains("which matches pump/level/state, valve/level/state");
        type(robot, "#watch-when", "pump/level/state > 0x30");
        type(robot, "#watch-pad", "J1.3");
        robot.interact(() -> robot.lookup("#watch-pad").query().requestFocus());
        robot.push(KeyCode.ENTER);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Fits: 3 lookup tables and 1 register on free sites, out on pin S28");
    }

    /** Nets of two clocks: the field that settles it is named, with the clocks. */
    @Test
    void netsOfTwoClocksNeedAStatedOne(@TempDir Path folder, FxRobot robot) throws Exception {
        Path two = TwoClocks.write(folder);
        robot.interact(() -> model.open(two));
        open(robot);
        sort(robot, CircuitSort.ANY);
        type(robot, "#watch-nets", "alarm/blink*");
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .isEqualTo(
                        "Clock: this needs a stated clock, as the nets have more than one, but"
                                + " there is clk12 of alarm/blink[0], float_hi of alarm/blink[1].");
        type(robot, "#watch-clock", "clk12");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).startsWith("Fits: ");
    }

    @Test
    void withoutEnoughFreeCellsItDoesNotFit(FxRobot robot) {
        open(robot);
        sort(robot, CircuitSort.DIVIDE);
        robot.interact(() -> divisor(robot, 65_536));
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        fire(robot, "#watch-keep");
        assertThat(entries()).isEqualTo(1);
        type(robot, "#watch-pad", "x0y1/pad[1]");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith(
                        "Does not fit: The circuit has 36 cells, and the free sites that they could"
                                + " use are enough for 27.");
        assertThat(robot.lookup("#watch-keep").queryAs(Button.class).isDisabled()).isTrue();
    }

    @Test
    void fewerNetsAreOfferedWhereAllDoNotFit(FxRobot robot) {
        open(robot);
        sort(robot, CircuitSort.DIVIDE);
        keepDivider(robot, 65_536, "J1.2");
        keepDivider(robot, 1_024, "x0y1/pad[1]");
        assertThat(entries()).isEqualTo(2);
        sort(robot, CircuitSort.SELECT);
        type(robot, "#watch-nets", "alarm/blink, hi_sync, lo_sync, sample, decide, run/hold");
        type(robot, "#watch-by", "float_hi, float_lo, beep");
        type(robot, "#watch-pad", "J1.1");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .contains("With only the first 6 of the 8 nets, chosen by float_hi, float_lo and");
        Hyperlink fewer = robot.lookup("#watch-fewer").queryAs(Hyperlink.class);
        assertThat(fewer.isVisible()).isTrue();
        robot.interact(fewer::fire);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(text(robot, "#watch-answer")).startsWith("Fits: 4 lookup tables");
        assertThat(robot.lookup("#watch-nets").queryAs(TextField.class).getText())
                .endsWith("pump/level/sample[0], pump/level/sample[1]");
    }

    private void keepDivider(FxRobot robot, int by, String pad) {
        robot.interact(() -> divisor(robot, by));
        type(robot, "#watch-pad", pad);
        fire(robot, "#watch-ask");
        fire(robot, "#watch-keep");
    }

    @Test
    void whatDoesNotFitSaysWhyAndWhatDoes(FxRobot robot) throws Exception {
        open(robot);
        type(robot, "#watch-when", "hold");
        type(robot, "#watch-pad", "J2.1");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).startsWith("Does not fit: ");
        assertThat(robot.lookup("#watch-keep").queryAs(Button.class).isDisabled()).isTrue();
        take(robot, "watch-does-not-fit");
        assertThat(text(robot, "#watch-answer"))
                .contains("With other nets and cells moved it fits: reroute net alarm/beep.");
        Hyperlink moving = robot.lookup("#watch-moving").queryAs(Hyperlink.class);
        type(robot, "#watch-pad", "J1.2");
        assertThat(moving.isVisible()).isFalse();
        type(robot, "#watch-pad", "J2.1");
        assertThat(moving.isVisible()).isTrue();
        robot.interact(moving::fire);
        WaitForAsyncUtils.waitForFxEvents();
        CheckBox mayMove = robot.lookup("#watch-may-move").queryAs(CheckBox.class);
        assertThat(mayMove.isSelected()).as("for later circuits").isFalse();
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Fits: ")
                .endsWith("To make room: reroute net alarm/beep.");
        assertThat(details(robot))
                .contains(
                        "Rerouted: net alarm/beep (",
                        "Branched, each keeping all its wires: clk12");
        take(robot, "watch-moved");
        fire(robot, "#watch-keep");
        assertThat(entries()).isEqualTo(1);
        robot.interact(model::undo);
        assertThat(entries()).isZero();
    }

    /** Names in the answer are links that show the thing on the map. */
    @Test
    void namesInTheAnswerAreLinks(FxRobot robot) {
        open(robot);
        type(robot, "#watch-when", WHEN);
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        Set<String> links = new HashSet<>();
        for (String part : List.of("#watch-answer", "#watch-details")) {
            robot.lookup(part + " .hyperlink")
                    .queryAllAs(Hyperlink.class)
                    .forEach(l -> links.add(l.getText()));
        }
        assertThat(links).contains("E2", "clk12", "alarm/beep", "x4y3/cell[1]", "x7y2/pad[1]");
        Hyperlink net =
                robot.lookup("#watch-details .hyperlink").queryAllAs(Hyperlink.class).stream()
                        .filter(l -> l.getText().equals("alarm/beep"))
                        .findFirst()
                        .orElseThrow();
        byte[] before = mapPixels(robot);
        robot.interact(net::fire);
        assertThat(mapPixels(robot)).isNotEqualTo(before);
    }

    /** The panel names its own field, where the command names an option. */
    @Test
    void theTopModuleOfANetlistCanBeStated(FxRobot robot, @TempDir Path folder) throws Exception {
        Path two =
                Files.writeString(
                        folder.resolve("two.v"),
                        Files.readString(Path.of("fixtures/netlists/steady.v"))
                                + "\nmodule other; endmodule\n");
        open(robot);
        sort(robot, CircuitSort.OWN);
        type(robot, "#watch-pad", "J1.2");
        type(robot, "#watch-netlist", two.toString());
        type(robot, "#watch-mapping", "fixtures/netlists/larch.mapping.json");
        type(robot, "#watch-bind", "noisy=float_hi");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .contains("under “Top module”")
                .doesNotContain("--");
        type(robot, "#watch-top", "steady");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).startsWith("Fits: 1 lookup table");
    }

    @Test
    void aNetlistOfTheUsersOwn(FxRobot robot) throws Exception {
        open(robot);
        sort(robot, CircuitSort.OWN);
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Netlist: this needs a file, but there is none");
        type(robot, "#watch-netlist", "fixtures/netlists/steady.v");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Mapping: this needs a file, but there is none");
        type(robot, "#watch-mapping", "fixtures/netlists/larch.mapping.json");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Inputs: this needs a net for each input of the netlist");
        type(robot, "#watch-bind", "noisy=float_hi");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer"))
                .startsWith("Fits: 1 lookup table and 3 registers on free sites, out on pin E2");
        take(robot, "watch-own");
        type(robot, "#watch-bind", "noisy=float_lo");
        assertThat(robot.lookup("#watch-keep").queryAs(Button.class).isDisabled()).isTrue();
        fire(robot, "#watch-ask");
        fire(robot, "#watch-keep");
        assertThat(entries()).isEqualTo(1);
        robot.interact(model::undo);
        assertThat(entries()).isZero();
    }

    @Test
    void selectAndDivide(FxRobot robot) throws Exception {
        open(robot);
        sort(robot, CircuitSort.SELECT);
        type(robot, "#watch-nets", "level/*_sync, sample");
        type(robot, "#watch-by", "J2.1, J2.2");
        type(robot, "#watch-pad", "J1.1");
        fire(robot, "#watch-ask");
        accept(robot);
        assertThat(text(robot, "#watch-answer")).startsWith("Fits: ");
        take(robot, "watch-select");
        sort(robot, CircuitSort.DIVIDE);
        robot.interact(() -> divisor(robot, 16));
        type(robot, "#watch-pad", "J1.2");
        fire(robot, "#watch-ask");
        assertThat(text(robot, "#watch-answer")).startsWith("Fits: ");
        take(robot, "watch-divide");
        robot.interact(() -> robot.lookup("#watch").queryAs(ScrollPane.class).setVvalue(1));
        take(robot, "watch-divide-below");
    }

    @Test
    void netsAreDraggedFromTheirList(FxRobot robot) {
        select(robot, "nets-tab");
        WaitForAsyncUtils.waitForFxEvents();
        Node row =
                robot.lookup("#nets-table .tree-table-cell").queryAll().stream()
                        .filter(
                                n ->
                                        n instanceof TreeTableCell<?, ?> c
                                                && "beep".equals(c.getText()))
                        .findFirst()
                        .orElseThrow();
        robot.drag(row);
        robot.moveTo("#watch-tab");
        // A tab opens while something is over it, which takes the robot more than one move to do.
        for (int i = 0; i < 10 && robot.lookup("#watch-when").tryQuery().isEmpty(); i++) {
            robot.moveBy(i % 2 == 0 ? 2 : -2, 1);
            WaitForAsyncUtils.waitForFxEvents();
        }
        robot.dropTo("#watch-when");
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(robot.lookup("#watch-when").queryAs(TextField.class).getText())
                .isEqualTo("alarm/beep");
    }

    private void divisor(FxRobot robot, int number) {
        @SuppressWarnings("unchecked")
        Spinner<Integer> field = robot.lookup("#watch-divisor").queryAs(Spinner.class);
        field.getValueFactory().setValue(number);
    }

    private void accept(FxRobot robot) {
        CheckBox box = robot.lookup("#watch-accept").queryAs(CheckBox.class);
        robot.interact(() -> box.setSelected(box.isVisible()));
    }

    private int entries() {
        return model.keptProperty().get().orElseThrow().entries().size();
    }

    private void open(FxRobot robot) {
        robot.interact(
                () -> {
                    stage.setWidth(Integer.getInteger("picture.width", 1280));
                    stage.setHeight(Integer.getInteger("picture.height", 800));
                });
        select(robot, "watch-tab");
    }

    private void sort(FxRobot robot, CircuitSort sort) {
        robot.interact(
                () -> {
                    @SuppressWarnings("unchecked")
                    ChoiceBox<CircuitSort> box =
                            robot.lookup("#watch-sort").queryAs(ChoiceBox.class);
                    box.setValue(sort);
                });
    }

    private static Rectangle mark(FxRobot robot) {
        WaitForAsyncUtils.waitForFxEvents();
        TextField when = robot.lookup("#watch-when").queryAs(TextField.class);
        Pane marks = (Pane) ((Pane) when.getParent()).getChildren().get(1);
        return (Rectangle) marks.getChildren().get(0);
    }

    private static String details(FxRobot robot) {
        StringBuilder all = new StringBuilder();
        robot.lookup("#watch-details")
                .queryAs(Pane.class)
                .getChildren()
                .forEach(l -> all.append(((LinkedText) l).text()).append('\n'));
        return all.toString();
    }

    private static void type(FxRobot robot, String field, String text) {
        robot.interact(() -> robot.lookup(field).queryAs(TextField.class).setText(text));
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static void fire(FxRobot robot, String button) {
        robot.interact(() -> robot.lookup(button).queryAs(Button.class).fire());
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static String text(FxRobot robot, String label) {
        if (label.equals("#watch-answer")) {
            Pane answer = robot.lookup(label).queryAs(Pane.class);
            return ((LinkedText) answer.getChildren().get(0)).text();
        }
        return robot.lookup(label).queryAs(Label.class).getText();
    }

    private void dark(FxRobot robot, boolean on) {
        robot.interact(() -> model.look().darkProperty().set(on));
    }

    private static void select(FxRobot robot, String id) {
        robot.interact(
                () -> {
                    TabPane tabs = robot.lookup("#panels").queryAs(TabPane.class);
                    tabs.getTabs().stream()
                            .filter(t -> t.getId().equals(id))
                            .forEach(t -> tabs.getSelectionModel().select(t));
                });
        WaitForAsyncUtils.waitForFxEvents();
    }

    private static byte[] mapPixels(FxRobot robot) {
        WaitForAsyncUtils.waitForFxEvents();
        WritableImage[] picture = new WritableImage[1];
        robot.interact(() -> picture[0] = robot.lookup("#map").query().snapshot(null, null));
        int wide = (int) picture[0].getWidth();
        int high = (int) picture[0].getHeight();
        byte[] pixels = new byte[4 * wide * high];
        picture[0]
                .getPixelReader()
                .getPixels(
                        0, 0, wide, high, PixelFormat.getByteBgraInstance(), pixels, 0, 4 * wide);
        return pixels;
    }

    private void take(FxRobot robot, String name) throws Exception {
        WaitForAsyncUtils.waitForFxEvents();
        if (!System.getProperty("pictures", "").isEmpty()) {
            OpenWindow.take(robot, stage, name);
        }
    }
}
