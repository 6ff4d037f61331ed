package padward.ui.question;

import javafx.animation.PauseTransition;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.util.Duration;

/** Tells of work once it has taken a while: what is done before flashes no text. */
final class DelayedNotice {
    private static final Duration WHILE = Duration.millis(150);

    private final PauseTransition pause = new PauseTransition(WHILE);
    private final ReadOnlyBooleanWrapper over = new ReadOnlyBooleanWrapper(false);
    private boolean working;

    DelayedNotice() {
        pause.setOnFinished(e -> over.set(working));
    }

    /** Must be told whenever the work may have begun or ended. */
    void follow(boolean nowWorking) {
        if (nowWorking == working) {
            return;
        }
        working = nowWorking;
        if (working) {
            pause.playFromStart();
        } else {
            pause.stop();
            over.set(false);
        }
    }

    /** Whether the work has lasted for a while and still does. */
    ReadOnlyBooleanProperty overProperty() {
        return over.getReadOnlyProperty();
    }
}
