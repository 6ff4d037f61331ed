package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.attribute.FileTime;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import javafx.event.Event;
import javafx.scene.Node;
import javafx.scene.control.CheckBox;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.DialogPane;
import javafx.scene.control.Labeled;
import javafx.scene.control.ListView;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuBar;
import javafx.scene.control.MenuItem;
import javafx.scene.control.Spinner;
import javafx.scene.control.TextField;
import javafx.scene.input.Clipboard;
import javafx.scene.input.DragEvent;
import javafx.scene.input.KeyCode;
import javafx.stage.Stage;
import javafx.stage.Window;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.io.TempDir;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import org.testfx.util.WaitForAsyncUtils;
import padward.base.Progress;
import padward.base.Version;
import padward.design.Design;
import padward.fabric.delay.Corner;
import padward.format.design.DesignReader;
import padward.ui.design.OpenDesign;
import padward.ui.ledger.SheetWindow;
import padward.ui.model.WindowModel;

/** What every desktop program does alike. */
@ExtendWith(ApplicationExtension.class)
class HabitsTest {
    private static final String NET = "pump/level/sample[1]";

    private Stage stage;
    private WindowModel model;

    @Start
    void start(Stage given) {
        stage = given;
        model = OpenWindow.show(stage);
        model.open(Path.of("fixtures/small/only.design.json"));
    }

    @Test
    void arrowsChooseInAListOfChoices(FxRobot robot) {
        ChoiceBox<?> corner = robot.lookup("#corner").queryAs(ChoiceBox.class);
        robot.interact(corner::requestFocus);
        robot.push(KeyCode.DOWN);
        assertThat(model.shown().cornerProperty().get()).isEqualTo(Corner.FAST);
        assertThat(corner.isFocused()).isTrue();
        robot.push(KeyCode.DOWN).push(KeyCode.UP);
        assertThat(model.shown().cornerProperty().get()).isEqualTo(Corner.SLOW);
        assertThat(corner.isFocused()).isTrue();
    }

    @Test
    void whatIsNoNumberIsReplacedByTheOneBefore(FxRobot robot) {
        robot.interact(() -> OpenWindow.actions(stage).get("show-group").run());
        Spinner<?> tolerance = robot.lookup("#group-tolerance").queryAs(Spinner.class);
        for (String text : new String[] {"abc", "", "1,5x", "99999999999"}) {
            robot.interact(
                    () -> {
                        tolerance.getEditor().setText(text);
                        tolerance.commitValue();
                    });
            assertThat(tolerance.getEditor().getText()).as(text).isEqualTo("150");
        }
        robot.interact(
                () -> {
                    tolerance.getEditor().setText(" 200 ");
                    tolerance.commitValue();
                });
        assertThat(tolerance.getValue()).isEqualTo(200);
    }

    @Test
    void aPartOfANameFindsTheOnlyThingThatHasIt(FxRobot robot) {
        TextField find = robot.lookup("#find-field").queryAs(TextField.class);
        robot.interact(find::requestFocus);
        robot.write("motor_o").push(KeyCode.ESCAPE).push(KeyCode.ENTER);
        assertThat(model.notes().all()).isEmpty();
    }

    @Test
    void theMatchesOfAPartOfANameAreCountedAndShownOneByOne(FxRobot robot) {
        TextField find = robot.lookup("#find-field").queryAs(TextField.class);
        Labeled count = robot.lookup("#find-count").queryAs(Labeled.class);
        assertThat(count.getParent().isVisible()).isFalse();
        robot.interact(find::requestFocus);
        robot.write("sample").push(KeyCode.ESCAPE).push(KeyCode.ENTER);
        int all = Integer.parseInt(count.getText().substring("1 of ".length()));
        assertThat(all).isGreaterThan(1);
        assertThat(model.notes().all()).isEmpty();
        String first = count.getTooltip().getText();
        assertThat(first).contains("sample");
        robot.push(KeyCode.ENTER);
        assertThat(count.getText()).isEqualTo("2 of " + all);
        assertThat(count.getTooltip().getText()).contains("sample").isNotEqualTo(first);
        robot.push(KeyCode.F3);
        assertThat(count.getText()).isEqualTo((all > 2 ? "3" : "1") + " of " + all);
        robot.push(KeyCode.SHIFT, KeyCode.F3).push(KeyCode.SHIFT, KeyCode.F3);
        assertThat(count.getText()).isEqualTo("1 of " + all);
        robot.push(KeyCode.SHIFT, KeyCode.F3);
        assertThat(count.getText()).as("behind the first is the last").startsWith(all + " of ");
        robot.interact(find::requestFocus);
        robot.push(KeyCode.END).write("[1]");
        assertThat(count.getParent().isVisible()).as("not sought yet").isFalse();
    }

    @Test
    void theBeginningOfATileOffersTilesAndPads(FxRobot robot) {
        TextField find = robot.lookup("#find-field").queryAs(TextField.class);
        robot.interact(find::requestFocus);
        robot.write("x0y");
        ListView<?> offered = robot.lookup(".completions").queryListView();
        assertThat(offered.getItems().stream().map(Object::toString))
                .startsWith("x0y0", "x0y1")
                .anyMatch(name -> name.contains("/pad["));
        robot.push(KeyCode.DOWN).push(KeyCode.DOWN).push(KeyCode.ENTER);
        assertThat(find.getText()).isEqualTo("x0y1");
        robot.push(KeyCode.ENTER);
        assertThat(model.notes().all()).isEmpty();
    }

    @Test
    void aNetAloneAsksForAllPads(FxRobot robot) {
        robot.interact(() -> robot.lookup("#net-field").query().requestFocus());
        robot.write(NET).push(KeyCode.ESCAPE).push(KeyCode.ENTER);
        assertThat(model.notes().all()).isEmpty();
        assertThat(model.shown().answerProperty().get()).isEmpty();
        assertThat(model.shown().surveyProperty().get().orElseThrow().net().name()).isEqualTo(NET);
        assertThat(model.shown().question().title()).isEqualTo("sample[1] on any pad");
        assertThat(model.shown().question().isOwed()).isFalse();
        // It is surveyed again when the design changes.
        OpenWindow.ask(robot, model, NET, "J1.3");
        robot.interact(
                () -> {
                    model.shown().tryIt();
                    model.keep();
                    model.shown().padTextProperty().set("");
                    model.shown().ask();
                    model.undo();
                });
        assertThat(model.shown().surveyProperty().get().orElseThrow().answers().get(0))
                .satisfies(
                        a ->
                                assertThat(a.question().design())
                                        .isSameAs(
                                                model.openedProperty()
                                                        .get()
                                                        .orElseThrow()
                                                        .design()));
    }

    @Test
    void theChangedDesignIsSavedBesideTheOpenOne(FxRobot robot, @TempDir Path folder)
            throws Exception {
        assertThat(OpenWindow.actions(stage).get("save-design").possible().get()).isFalse();
        OpenWindow.ask(robot, model, NET, "J1.3");
        robot.interact(
                () -> {
                    model.shown().tryIt();
                    model.shown().acceptedProperty().set(true);
                    model.keep();
                });
        assertThat(OpenWindow.actions(stage).get("save-design").possible().get()).isTrue();
        Path target = folder.resolve("changed.design.json");
        robot.interact(() -> model.design().saveChanged(target));
        Design changed = DesignReader.read(target, Progress.NONE);
        assertThat(changed.findNet("pump/run/motor_out")).isEmpty();
        assertThat(changed.nets()).hasSize(12);
        assertThat(model.notes().all()).isEmpty();
        Path opened = Path.of("fixtures/small/only.design.json");
        byte[] before = Files.readAllBytes(opened);
        robot.interact(() -> model.design().saveChanged(opened.toAbsolutePath()));
        assertThat(Files.readAllBytes(opened)).isEqualTo(before);
        assertThat(model.notes().all())
                .singleElement()
                .satisfies(
                        n ->
                                assertThat(n.text())
                                        .contains("never changed")
                                        .contains("Choose another file"));
    }

    @Test
    void filesOverTheWindowShowWhatDroppingDoes(FxRobot robot) {
        MainView view = (MainView) stage.getScene().getRoot();
        Node here = robot.lookup("#drop-here").query();
        assertThat(here.isVisible()).isFalse();
        robot.interact(() -> view.showDrop(true));
        assertThat(here.isVisible()).isTrue();
        robot.interact(
                () ->
                        Event.fireEvent(
                                view,
                                new DragEvent(
                                        DragEvent.DRAG_EXITED,
                                        null,
                                        0,
                                        0,
                                        0,
                                        0,
                                        null,
                                        null,
                                        null,
                                        null)));
        assertThat(here.isVisible()).isFalse();
    }

    @Test
    void escapeClosesTheSheetAndThereIsOnlyOne(FxRobot robot) {
        robot.interact(() -> SheetWindow.open(model, stage));
        robot.interact(() -> SheetWindow.open(model, stage));
        assertThat(sheets()).isEqualTo(1);
        robot.push(KeyCode.ESCAPE);
        WaitForAsyncUtils.waitForFxEvents();
        assertThat(sheets()).isZero();
    }

    @Test
    void theQuestionIsCopiedAsACommand(FxRobot robot) {
        OpenWindow.ask(robot, model, NET, "J1.3");
        robot.interact(() -> model.shown().cornerProperty().set(Corner.FAST));
        robot.interact(() -> OpenWindow.actions(stage).get("copy-command").run());
        assertThat(clipboard(robot))
                .startsWith("padward ask --design /")
                .endsWith("only.design.json --net 'pump/level/sample[1]' --pad J1.3 --corner fast");
        OpenWindow.ask(robot, model, NET, "");
        robot.interact(() -> OpenWindow.actions(stage).get("copy-command").run());
        assertThat(clipboard(robot)).startsWith("padward survey ").doesNotContain("--pad");
    }

    /** What is typed counts, not what was asked before. */
    @Test
    void theCommandNamesTheHeaderOrThePadInTheFields(FxRobot robot) {
        OpenWindow.ask(robot, model, NET, "J1");
        robot.interact(() -> OpenWindow.actions(stage).get("copy-command").run());
        assertThat(clipboard(robot)).startsWith("padward survey ").endsWith(" --header J1");
        robot.interact(() -> model.shown().padTextProperty().set("B1"));
        robot.interact(() -> OpenWindow.actions(stage).get("copy-command").run());
        assertThat(clipboard(robot)).startsWith("padward ask ").endsWith(" --pad B1");
    }

    @Test
    void wordsAreQuotedAsTheSystemDoes() {
        assertThat(AskCommandLine.quoted("a b[1]", false)).isEqualTo("'a b[1]'");
        assertThat(AskCommandLine.quoted("a b[1]", true)).isEqualTo("\"a b[1]\"");
        assertThat(AskCommandLine.quoted("C:\\a", true)).isEqualTo("C:\\a");
    }

    private static String clipboard(FxRobot robot) {
        String[] copied = new String[1];
        robot.interact(() -> copied[0] = Clipboard.getSystemClipboard().getString());
        return copied[0];
    }

    @Test
    void whatIsOnIsMarkedInItsMenuAndMenusHaveAccessKeys(FxRobot robot) {
        MenuBar menus = robot.lookup("#menus").queryAs(MenuBar.class);
        assertThat(menus.getMenus()).allMatch(m -> m.getText().startsWith("_"));
        CheckMenuItem dark = (CheckMenuItem) item(menus.getMenus(), "dark-item");
        assertThat(dark.isSelected()).isFalse();
        robot.interact(dark::fire);
        assertThat(model.look().darkProperty().get()).isTrue();
        assertThat(dark.isSelected()).isTrue();
        robot.interact(() -> model.look().darkProperty().set(false));
        assertThat(dark.isSelected()).isFalse();
        assertThat(((CheckMenuItem) item(menus.getMenus(), "layer-route-item")).isSelected())
                .isTrue();
    }

    private static MenuItem item(List<? extends MenuItem> items, String id) {
        for (MenuItem item : items) {
            if (id.equals(item.getId())) {
                return item;
            }
            MenuItem below = item instanceof Menu menu ? item(menu.getItems(), id) : null;
            if (below != null) {
                return below;
            }
        }
        return null;
    }

    @Test
    void aChangedFileIsOfferedAndReadAgain(FxRobot robot, @TempDir Path folder) throws Exception {
        Path file = folder.resolve("only.design.json");
        for (String name : List.of("only.design.json", "only.fabric.json", "board.json")) {
            Path from = Path.of("fixtures/small").resolve(name);
            if (Files.exists(from)) {
                Files.copy(from, folder.resolve(name));
            }
        }
        Files.copy(
                Path.of("fixtures/small/only.design.json"),
                file,
                StandardCopyOption.REPLACE_EXISTING);
        robot.interact(() -> model.open(file));
        robot.interact(model::lookForChange);
        assertThat(model.notes().all()).isEmpty();
        Files.setLastModifiedTime(file, FileTime.fromMillis(1_000_000_000_000L));
        robot.interact(model::lookForChange);
        assertThat(model.notes().all().get(0).text())
                .isEqualTo("only.design.json has changed on the disk since it was opened.");
        robot.interact(model::lookForChange);
        assertThat(model.notes().all()).hasSize(1);
        OpenDesign before = model.openedProperty().get().orElseThrow();
        robot.clickOn("Read it again");
        assertThat(model.openedProperty().get().orElseThrow()).isNotSameAs(before);
        assertThat(model.notes().all()).isEmpty();
    }

    @Test
    void notesGoWithTheirQuestion(FxRobot robot) {
        robot.interact(
                () -> {
                    model.questions().open(NET);
                    model.notes().add(model.shown().question(), "a note of this question");
                    model.questions().close(model.shown().question());
                });
        assertThat(model.notes().all()).isEmpty();
    }

    @Test
    void aboutAndPreferencesCanBeOpened(FxRobot robot) {
        robot.interact(() -> OpenWindow.actions(stage).get("about").run());
        assertThat(dialog("about").getHeaderText()).isEqualTo("Padward " + Version.text());
        robot.interact(() -> dialog("about").getScene().getWindow().hide());
        robot.interact(() -> OpenWindow.actions(stage).get("preferences").run());
        CheckBox dark = (CheckBox) dialog("preferences").lookup("#prefer-dark");
        robot.interact(() -> dark.setSelected(true));
        assertThat(model.look().darkProperty().get()).isTrue();
        assertThat(dialog("preferences").getStyleClass()).as("follows").contains("dark");
        robot.interact(() -> dark.setSelected(false));
        assertThat(dialog("preferences").getStyleClass()).doesNotContain("dark");
        robot.interact(() -> model.look().setTextSize(18));
        assertThat(dialog("preferences").getStyle()).contains("18px");
        robot.interact(() -> dialog("preferences").getScene().getWindow().hide());
    }

    private static DialogPane dialog(String id) {
        return Window.getWindows().stream()
                .map(w -> w.getScene().getRoot())
                .filter(r -> id.equals(r.getId()))
                .map(r -> (DialogPane) r)
                .findFirst()
                .orElseThrow();
    }

    private static long sheets() {
        return Window.getWindows().stream()
                .filter(w -> w.getScene().getRoot() instanceof SheetWindow)
                .count();
    }

    /** A window that only stands there costs no power: no frame is asked for. */
    @Test
    void nothingTicksWhileNothingHappens(FxRobot robot) throws Exception {
        OpenWindow.ask(robot, model, NET, "J1.3");
        for (String panel : List.of("routes", "group", "steps", "watch", "kept", "lessons")) {
            robot.interact(
                    () -> {
                        OpenWindow.actions(stage).get("show-" + panel).run();
                        // A caret blinks where one can type.
                        robot.lookup("#map").query().requestFocus();
                    });
            // Notices and flights have an end.
            Thread.sleep(1500);
            WaitForAsyncUtils.waitForFxEvents();
            AtomicInteger pulses = new AtomicInteger();
            Runnable count = pulses::incrementAndGet;
            robot.interact(() -> stage.getScene().addPostLayoutPulseListener(count));
            Thread.sleep(1000);
            robot.interact(() -> stage.getScene().removePostLayoutPulseListener(count));
            assertThat(pulses.get()).as(panel).isLessThan(5);
        }
    }

    /** A fault of a listener is a note, not a line in a terminal that nobody sees. */
    @Test
    void aFaultThatNothingCatchesIsANote(FxRobot robot) {
        javafx.application.Platform.runLater(
                () -> {
                    throw new IllegalStateException("a fault made by the test");
                });
        WaitForAsyncUtils.waitForFxEvents();
        WaitForAsyncUtils.clearExceptions();
        assertThat(model.notes().all().get(0).text()).contains("a fault made by the test");
    }
}
