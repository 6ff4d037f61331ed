package padward.ui;

import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.stream.Collectors;
import javafx.application.Platform;
import org.testfx.util.WaitForAsyncUtils;

/**
 * Watches how long the UI thread works without a pause, in time of the processor, so that a busy
 * machine does not count. A thread puts beats into the event queue, a few milliseconds apart; what
 * the UI thread has worked between two beats kept the window from reacting. The same thread notes
 * where it is meanwhile.
 */
final class UiThreadWatch {
    private static final long BEAT_MILLIS = 3;
    private static final ThreadMXBean THREADS = ManagementFactory.getThreadMXBean();

    private final long ui;
    private final AtomicBoolean ended = new AtomicBoolean();
    private final List<Sample> samples = new ArrayList<>();
    private long lastBeat;
    private long longest;
    private List<String> where = List.of();

    /** Where the UI thread was when it had worked for so long in all. */
    private record Sample(long cpuNanos, String at) {}

    private UiThreadWatch(long ui) {
        this.ui = ui;
    }

    /**
     * The longest work of the UI thread while something is done.
     *
     * @param millis time of the processor
     * @param where where it was, the most frequent place first
     */
    record Longest(double millis, String where) {}

    /** Watches while a flow is done. */
    static Longest during(Runnable flow) throws Exception {
        long thread =
                WaitForAsyncUtils.asyncFx((Callable<Long>) () -> Thread.currentThread().getId())
                        .get();
        UiThreadWatch watch = new UiThreadWatch(thread);
        Thread beats = new Thread(watch::beat, "ui-thread-watch");
        beats.setDaemon(true);
        beats.start();
        flow.run();
        WaitForAsyncUtils.waitForFxEvents();
        watch.ended.set(true);
        beats.join();
        synchronized (watch) {
            return new Longest(watch.longest / 1e6, String.join("\n", watch.where));
        }
    }

    private void beat() {
        AtomicBoolean waiting = new AtomicBoolean();
        while (!ended.get()) {
            if (waiting.compareAndSet(false, true)) {
                Platform.runLater(
                        () -> {
                            waiting.set(false);
                            arrived();
                        });
            }
            long cpu = THREADS.getThreadCpuTime(ui);
            var info = THREADS.getThreadInfo(ui, 60);
            if (info != null) {
                String at =
                        Arrays.stream(info.getStackTrace())
                                .map(StackTraceElement::toString)
                                .filter(l -> l.contains("padward.ui.") || l.contains("javafx"))
                                .limit(14)
                                .collect(Collectors.joining("\n    "));
                synchronized (this) {
                    samples.add(new Sample(cpu, at));
                }
            }
            try {
                Thread.sleep(BEAT_MILLIS);
            } catch (InterruptedException stop) {
                return;
            }
        }
    }

    private synchronized void arrived() {
        long now = THREADS.getThreadCpuTime(ui);
        long worked = lastBeat == 0 ? 0 : now - lastBeat;
        if (worked > longest) {
            longest = worked;
            long from = lastBeat;
            where =
                    samples.stream()
                            .filter(s -> s.cpuNanos() > from)
                            .map(Sample::at)
                            .distinct()
                            .limit(4)
                            .toList();
        }
        lastBeat = now;
        samples.clear();
    }
}
