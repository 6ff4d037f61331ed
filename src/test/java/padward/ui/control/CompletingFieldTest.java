package padward.ui.control;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javafx.scene.Scene;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;

/** Names that are found late. */
@ExtendWith(ApplicationExtension.class)
class CompletingFieldTest {
    private final Map<String, Consumer<List<String>>> searches = new HashMap<>();
    private CompletingField field;

    @Start
    void start(Stage stage) {
        field = new CompletingField(searches::put, (text, at) -> text.charAt(at) != ' ');
        stage.setScene(new Scene(new StackPane(field), 400, 200));
        stage.show();
    }

    private boolean offers(FxRobot robot, String word, String name) {
        robot.interact(() -> searches.get(word).accept(List.of(name)));
        return robot.lookup(".completions").tryQuery().isPresent();
    }

    @Test
    void namesForAnotherWordAreNotOffered(FxRobot robot) {
        robot.interact(field::requestFocus);
        robot.write("ab", 0);
        assertThat(offers(robot, "a", "a1")).isFalse();
        assertThat(offers(robot, "ab", "ab1")).isTrue();
        robot.write(" ", 0);
        assertThat(offers(robot, "ab", "ab1")).isFalse();
    }

    @Test
    void namesAreNotOfferedAfterEnter(FxRobot robot) {
        robot.interact(field::requestFocus);
        robot.write("a", 0).push(KeyCode.ENTER);
        assertThat(offers(robot, "a", "a1")).isFalse();
    }
}
