package padward.ui.play;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.function.Consumer;
import org.junit.jupiter.api.Test;
import padward.base.Progress;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;

/** Recordings to play, without a window. */
class RecordingsTest {
    /**
     * Work is done when the test says so; its result counts unless it has been cancelled by then.
     */
    private final List<Runnable> waiting = new ArrayList<>();

    private final BackgroundWork background =
            new BackgroundWork() {
                @Override
                public <T> Job start(
                        Work<T> work,
                        Watcher watcher,
                        Consumer<T> done,
                        Consumer<Exception> failed) {
                    AtomicBoolean stopped = new AtomicBoolean();
                    waiting.add(() -> perform(work, done, stopped));
                    return () -> stopped.set(true);
                }
            };

    private final WindowModel model = new WindowModel(background);
    private final Recordings recordings = new Recordings(model);

    private static <T> void perform(
            BackgroundWork.Work<T> work, Consumer<T> done, AtomicBoolean stopped) {
        try {
            T result = work.run(Progress.NONE);
            if (!stopped.get()) {
                done.accept(result);
            }
        } catch (Exception fault) {
            throw new AssertionError(fault);
        }
    }

    private void work() {
        while (!waiting.isEmpty()) {
            waiting.remove(0).run();
        }
    }

    @Test
    void roundsOfADesignThatIsGoneAreNotShown() {
        model.open(Path.of("fixtures/lessons/narrows.design.json"));
        work();
        recordings.recordGroup(Recordings.EXAMPLE_NETS, Recordings.EXAMPLE_PADS);
        work();
        assertThat(recordings.roundsProperty().get()).isPresent();
        recordings.recordGroup(Recordings.EXAMPLE_NETS, Recordings.EXAMPLE_PADS);
        Runnable routing = waiting.remove(0);
        model.open(Path.of("fixtures/small/only.design.json"));
        work();
        routing.run();
        work();
        assertThat(recordings.roundsProperty().get()).isEmpty();
    }
}
