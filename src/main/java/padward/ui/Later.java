package padward.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import javafx.application.Platform;

/** Hands work to the UI thread; while there is none yet, keeps it. */
final class Later implements Consumer<Runnable> {
    private final List<Runnable> waiting = new ArrayList<>();
    private boolean ready;

    @Override
    public synchronized void accept(Runnable work) {
        if (ready) {
            Platform.runLater(work);
        } else {
            waiting.add(work);
        }
    }

    /** The UI thread is there. */
    synchronized void begin() {
        ready = true;
        waiting.forEach(Platform::runLater);
        waiting.clear();
    }
}
