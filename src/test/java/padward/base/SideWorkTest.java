package padward.base;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.atomic.AtomicInteger;
import org.junit.jupiter.api.Test;

/** Work that is done once, by whoever comes first. */
class SideWorkTest {
    private final AtomicInteger done = new AtomicInteger();

    @Test
    void whoNeedsItDoesItOnce() {
        Thread[] by = new Thread[1];
        SideWork<Integer, RuntimeException> work =
                new SideWork<>(
                        () -> {
                            by[0] = Thread.currentThread();
                            return done.incrementAndGet();
                        });
        assertThat(done).hasValue(0);
        assertThat(work.get()).isEqualTo(1);
        work.offer();
        assertThat(work.get()).isEqualTo(1);
        assertThat(by[0]).isSameAs(Thread.currentThread());
    }

    @Test
    void whatIsOfferedIsDoneElsewhereAndWaitedForEvenWhenInterrupted() throws Exception {
        CountDownLatch begun = new CountDownLatch(1);
        CountDownLatch go = new CountDownLatch(1);
        SideWork<Integer, InterruptedException> work =
                new SideWork<>(
                        () -> {
                            begun.countDown();
                            go.await();
                            return done.incrementAndGet();
                        });
        work.offer();
        begun.await();
        Thread.currentThread().interrupt();
        new Thread(go::countDown).start();
        int result = work.get();
        assertThat(Thread.interrupted()).isTrue();
        assertThat(result).isEqualTo(1);
        assertThat(done).hasValue(1);
    }

    @Test
    void whatItThrowsIsThrownWhereItIsNeeded() {
        SideWork<Integer, IOException> faulty =
                new SideWork<>(
                        () -> {
                            throw new IOException("a fault");
                        });
        faulty.offer();
        assertThatThrownBy(faulty::get).isInstanceOf(IOException.class).hasMessage("a fault");
        SideWork<Integer, IOException> tooMuch =
                new SideWork<>(
                        () -> {
                            throw new OutOfMemoryError("too much");
                        });
        assertThatThrownBy(tooMuch::get).isInstanceOf(OutOfMemoryError.class);
        SideWork<Integer, IOException> wrong =
                new SideWork<>(
                        () -> {
                            throw new IllegalStateException("wrong");
                        });
        assertThatThrownBy(wrong::get).isInstanceOf(IllegalStateException.class);
    }
}
