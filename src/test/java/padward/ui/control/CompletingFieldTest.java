package padward.ui.control;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import java.util.stream.IntStream;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Labeled;
import javafx.scene.control.ListCell;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.StackPane;
import javafx.stage.Stage;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.extension.ExtendWith;
import org.testfx.api.FxRobot;
import org.testfx.framework.junit5.ApplicationExtension;
import org.testfx.framework.junit5.Start;
import padward.ui.model.Suggestions;

/** Names that are found late. */
@ExtendWith(ApplicationExtension.class)
class CompletingFieldTest {
    private final Map<String, Consumer<Suggestions>> searches = new HashMap<>();
    private CompletingField field;

    @Start
    void start(Stage stage) {
        field = new CompletingField(searches::put, (text, at) -> text.charAt(at) != ' ');
        stage.setScene(new Scene(new StackPane(field), 400, 200));
        stage.show();
    }

    private boolean offers(FxRobot robot, String word, String name) {
        robot.interact(() -> searches.get(word).accept(new Suggestions(List.of(name))));
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
    void moreNamesThanAreSeenAreCountedAndReachedByKeys(FxRobot robot) {
        robot.interact(field::requestFocus);
        robot.write("a", 0);
        List<String> many = IntStream.range(0, 152).mapToObj(i -> "a" + i).toList();
        robot.interact(() -> searches.get("a").accept(new Suggestions(many)));
        assertThat(robot.lookup(".completions-more").queryAs(Labeled.class).getText())
                .isEqualTo("… and 140 more");
        for (int i = 0; i < 15; i++) {
            robot.push(KeyCode.DOWN);
        }
        robot.push(KeyCode.ENTER);
        assertThat(field.getText()).isEqualTo("a14");
    }

    @Test
    void whatANameStandsForIsBesideItAndNotTakenOver(FxRobot robot) {
        robot.interact(() -> field.setRemarks(name -> "sort of " + name));
        robot.interact(field::requestFocus);
        robot.write("a", 0);
        String wide = "a".repeat(80);
        robot.interact(() -> searches.get("a").accept(new Suggestions(List.of("a1", wide))));
        List<Node> cells =
                robot.lookup(".completions .list-cell").queryAll().stream()
                        .filter(c -> !((ListCell<?>) c).isEmpty())
                        .toList();
        assertThat(cells).hasSize(2);
        for (Node cell : cells) {
            String item = (String) ((ListCell<?>) cell).getItem();
            assertThat(cell.getAccessibleText()).isEqualTo(item + " sort of " + item);
        }
        Labeled remark = robot.lookup(".completions-remark").queryAs(Labeled.class);
        assertThat(remark.getText()).isEqualTo("sort of a1");
        Node list = robot.lookup(".completions").query();
        double right = remark.localToScene(remark.getBoundsInLocal()).getMaxX();
        assertThat(right).isLessThan(list.localToScene(list.getBoundsInLocal()).getMaxX());
        robot.push(KeyCode.DOWN);
        robot.push(KeyCode.ENTER);
        assertThat(field.getText()).isEqualTo("a1");
    }

    @Test
    void namesThatAreAllSeenAreNotCounted(FxRobot robot) {
        robot.interact(field::requestFocus);
        robot.write("a", 0);
        List<String> few = IntStream.range(0, 12).mapToObj(i -> "a" + i).toList();
        robot.interact(() -> searches.get("a").accept(new Suggestions(few)));
        assertThat(robot.lookup(".completions-more").queryAs(Labeled.class).isVisible()).isFalse();
        assertThat(new Suggestions(IntStream.range(0, 5000).mapToObj(i -> "n" + i).toList()).more())
                .isEqualTo("… and at least 988 more");
    }

    @Test
    void namesAreNotOfferedAfterEnter(FxRobot robot) {
        robot.interact(field::requestFocus);
        robot.write("a", 0).push(KeyCode.ENTER);
        assertThat(offers(robot, "a", "a1")).isFalse();
    }
}
