package padward.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.concurrent.CancellationException;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(value = 60, unit = TimeUnit.SECONDS)
class SharedResultTest {
    private final AtomicInteger begun = new AtomicInteger();
    private final CountDownLatch running = new CountDownLatch(1);
    private final CountDownLatch mayFinish = new CountDownLatch(1);

    private String slow(Progress progress) {
        begun.incrementAndGet();
        running.countDown();
        while (mayFinish.getCount() > 0) {
            if (progress.cancelled()) {
                throw new CancellationException("stopped on request");
            }
            Thread.onSpinWait();
        }
        return "result";
    }

    /** Cancelled once the latch is open. */
    private static Progress until(CountDownLatch cancelled) {
        return new Progress() {
            @Override
            public void report(double fraction, String message) {}

            @Override
            public boolean cancelled() {
                return cancelled.getCount() == 0;
            }
        };
    }

    @Test
    void calculatesOnce() {
        mayFinish.countDown();
        SharedResult<String> shared = new SharedResult<>(this::slow);
        assertThat(shared.get(Progress.NONE)).isSameAs(shared.get(Progress.NONE));
        assertThat(begun).hasValue(1);
    }

    @Test
    void aKnownResultIsGivenToACancelledCallerToo() {
        mayFinish.countDown();
        SharedResult<String> shared = new SharedResult<>(this::slow);
        shared.get(Progress.NONE);
        assertThat(shared.get(until(new CountDownLatch(0)))).isEqualTo("result");
    }

    @Test
    void aCallerThatWaitsIsCancelledByItsOwnProgress() throws Exception {
        SharedResult<String> shared = new SharedResult<>(this::slow);
        CompletableFuture<String> first =
                CompletableFuture.supplyAsync(() -> shared.get(Progress.NONE));
        running.await();
        assertThatThrownBy(() -> shared.get(until(new CountDownLatch(0))))
                .isInstanceOf(CancellationException.class);
        mayFinish.countDown();
        assertThat(first.get()).isEqualTo("result");
        assertThat(begun).hasValue(1);
    }

    @Test
    void aCallerThatWaitsTakesOverWhenTheFirstIsCancelled() throws Exception {
        SharedResult<String> shared = new SharedResult<>(this::slow);
        CountDownLatch cancelFirst = new CountDownLatch(1);
        CompletableFuture<String> first =
                CompletableFuture.supplyAsync(() -> shared.get(until(cancelFirst)));
        running.await();
        CompletableFuture<String> second =
                CompletableFuture.supplyAsync(() -> shared.get(Progress.NONE));
        cancelFirst.countDown();
        assertThatThrownBy(first::join).hasCauseInstanceOf(CancellationException.class);
        mayFinish.countDown();
        assertThat(second.get()).isEqualTo("result");
    }

    @Test
    void whatFailedIsTriedAgain() {
        AtomicInteger tries = new AtomicInteger();
        SharedResult<String> shared =
                new SharedResult<>(
                        progress -> {
                            if (tries.incrementAndGet() == 1) {
                                throw new IllegalStateException("the first time");
                            }
                            return "result";
                        });
        assertThatThrownBy(() -> shared.get(Progress.NONE))
                .isInstanceOf(IllegalStateException.class);
        assertThat(shared.get(Progress.NONE)).isEqualTo("result");
    }
}
