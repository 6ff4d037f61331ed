package padward.ui.control;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import javafx.beans.property.SimpleBooleanProperty;
import org.junit.jupiter.api.Test;

/** Finding actions by words, without a window. */
class CommandFinderTest {
    private static final Action OPEN =
            Action.of("open", Action.Group.FILE, "Open…", "Shortcut+O", "Opens a design", () -> {});
    private static final Action LEDGER =
            Action.of("ledger", Action.Group.FILE, "Ledger…", "", "Opens a ledger", () -> {});
    private static final Action NEAR =
            Action.of("zoom-in", Action.Group.MAP, "Nearer", "Plus", "Zooms in", () -> {}).onMap();
    private static final Action UNDO =
            Action.of("undo", Action.Group.QUESTION, "Undo", "", "Takes it back", () -> {})
                    .when(new SimpleBooleanProperty(false));
    private static final List<Action> ALL = List.of(UNDO, OPEN, LEDGER, NEAR);

    @Test
    void withoutWordsAllAreListedThoseThatCanBeDoneFirst() {
        assertThat(CommandFinder.find(" ", ALL)).containsExactly(OPEN, LEDGER, NEAR, UNDO);
    }

    @Test
    void thoseCalledSoComeBeforeThoseGoodForIt() {
        assertThat(CommandFinder.find("open", ALL)).containsExactly(OPEN, LEDGER);
        assertThat(CommandFinder.find("ledger", ALL)).containsExactly(LEDGER);
    }

    @Test
    void everyWordMustBeginAWordInAnyOrderAndCase() {
        assertThat(CommandFinder.find("zo MAP", ALL)).containsExactly(NEAR);
        assertThat(CommandFinder.find("map open", ALL)).isEmpty();
        assertThat(CommandFinder.find("pens", ALL)).isEmpty();
    }
}
