package padward.ui;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.stream.Stream;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuBar;
import javafx.scene.control.MenuItem;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import padward.ui.control.Action;
import padward.ui.control.Actions;
import padward.ui.work.BackgroundWork;

/** Everything that can be done is declared once, and told in full. */
@ExtendWith(ApplicationExtension.class)
class ActionsTest {
    private MainView view;

    @Start
    void start(Stage stage) {
        stage.setWidth(1280);
        stage.setHeight(800);
        PadwardApp.show(stage, BackgroundWork.immediate());
        view = (MainView) stage.getScene().getRoot();
    }

    @Test
    void noKeyIsBoundTwice() {
        List<String> keys =
                view.actions().all().stream()
                        .flatMap(a -> a.keys().stream())
                        .map(KeyCombination::getName)
                        .toList();
        assertThat(keys).doesNotHaveDuplicates().hasSizeGreaterThan(10);
    }

    @Test
    void everyKeyIsAKeyAndNoCharacter() {
        assertThat(view.actions().all())
                .allSatisfy(
                        a ->
                                assertThat(a.keys())
                                        .as(a.id())
                                        .allMatch(k -> k instanceof KeyCodeCombination));
    }

    @Test
    void aSecondActionWithAKeyOrNameIsRefused() {
        Action one = Action.of("one", Action.Group.VIEW, "One", "Shortcut+J", "Does one", () -> {});
        Action same = Action.of("two", Action.Group.VIEW, "Two", "Shortcut+J", "Does 2", () -> {});
        Actions actions = new Actions();
        actions.add(List.of(one));
        assertThatThrownBy(() -> actions.add(List.of(one))).hasMessageContaining("one");
        assertThatThrownBy(() -> actions.add(List.of(same))).hasMessageContaining("two and one");
    }

    private static Stream<MenuItem> items(MenuItem item) {
        return item instanceof Menu menu
                ? menu.getItems().stream().flatMap(ActionsTest::items)
                : Stream.of(item);
    }

    @Test
    void everyActionTellsWhatItIsForAndStandsInAMenu(FxRobot robot) {
        MenuBar menus = robot.lookup("#menus").queryAs(MenuBar.class);
        List<String> items =
                menus.getMenus().stream().flatMap(ActionsTest::items).map(MenuItem::getId).toList();
        for (Action action : view.actions().all()) {
            assertThat(action.purpose()).as(action.id()).isNotBlank().doesNotEndWith(".");
            assertThat(action.purpose()).as(action.id()).isNotEqualTo(action.text());
            assertThat(items).contains(action.id() + "-item");
        }
    }
}
