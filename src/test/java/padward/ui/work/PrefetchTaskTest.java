package padward.ui.work;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import padward.base.BadInput;
import padward.base.Progress;

/** Work that is begun before there is anybody to watch it. */
class PrefetchTaskTest {
    /** Notes what is told, and can be stopped. */
    private static final class Watching implements Progress {
        final List<String> told = new CopyOnWriteArrayList<>();
        final AtomicBoolean stop = new AtomicBoolean();

        @Override
        public void report(double fraction, String message) {
            told.add(message);
        }

        @Override
        public boolean cancelled() {
            return stop.get();
        }
    }

    @Test
    void whoTakesItUpSeesItsProgressFromThenOnAndItsResult() throws Exception {
        CountDownLatch begun = new CountDownLatch(1);
        Watching watching = new Watching();
        PrefetchTask<String> ahead =
                new PrefetchTask<>(
                        progress -> {
                            progress.report(0, "early");
                            begun.countDown();
                            while (watching.told.isEmpty()) {
                                progress.report(0.5, "later");
                            }
                            return "result";
                        });
        begun.await();
        assertThat(ahead.findResult()).isEmpty();
        assertThat(ahead.run(watching)).isEqualTo("result");
        assertThat(watching.told).containsOnly("later");
        assertThat(ahead.findResult()).contains("result");
    }

    @Test
    void itsFaultIsThatOfWhoeverTakesItUp() throws Exception {
        BadInput fault = new BadInput("f", "$", "a", "b");
        PrefetchTask<String> ahead =
                new PrefetchTask<>(
                        progress -> {
                            throw fault;
                        });
        assertThatThrownBy(() -> ahead.run(Progress.NONE)).isSameAs(fault);
        assertThat(ahead.findResult()).isEmpty();
        PrefetchTask<String> broken =
                new PrefetchTask<>(
                        progress -> {
                            throw new OutOfMemoryError("as in a test");
                        });
        assertThatThrownBy(() -> broken.run(Progress.NONE)).isInstanceOf(OutOfMemoryError.class);
    }

    @Test
    void itStopsWhenItsWatcherWantsIt() {
        PrefetchTask<String> ahead =
                new PrefetchTask<>(
                        progress -> {
                            while (!progress.cancelled()) {
                                Thread.sleep(1);
                            }
                            throw new CancellationException();
                        });
        Watching watching = new Watching();
        watching.stop.set(true);
        assertThatThrownBy(() -> ahead.run(watching)).isInstanceOf(CancellationException.class);
    }
}
