package padward.ui.work;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;

/** Undoing and doing again. */
class HistoryTest {
    private final List<String> log = new ArrayList<>();
    private final History history = new History();

    private void did(String what) {
        history.did(new History.Step(what, () -> log.add("-" + what), () -> log.add("+" + what)));
    }

    @Test
    void theLastStepIsUndoneFirstAndDoneAgainFirst() {
        did("a");
        did("b");
        history.undo();
        history.undo();
        history.undo();
        history.redo();
        assertThat(log).containsExactly("-b", "-a", "+a");
        assertThat(history.nextUndoProperty().get()).contains("a");
        assertThat(history.nextRedoProperty().get()).contains("b");
    }

    @Test
    void aNewStepForgetsWhatWasUndone() {
        did("a");
        history.undo();
        did("b");
        assertThat(history.nextRedoProperty().get()).isEmpty();
        history.redo();
        assertThat(log).containsExactly("-a");
    }

    @Test
    void notMoreIsRememberedThanPromised() {
        for (int i = 0; i < History.MOST + 5; i++) {
            did(String.valueOf(i));
        }
        for (int i = 0; i < History.MOST + 5; i++) {
            history.undo();
        }
        assertThat(log).hasSize(History.MOST).endsWith("-5");
    }
}
