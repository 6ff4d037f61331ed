package padward.route.bound;

import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.Fabric;
import padward.fabric.delay.Corner;

/**
 * Calculates the table of least delays to pads on a thread of its own, while the caller still reads
 * what a question is about. Whoever needs the table before it is there waits for it; see {@link
 * FabricIndex}. Where there is one processor only, nothing is done ahead.
 */
public final class TableAhead {
    private final Corner corner;
    private volatile boolean stopped;

    /**
     * @param corner the corner that questions will be about
     */
    public TableAhead(Corner corner) {
        this.corner = corner;
    }

    /** Begins with a fabric, and returns at once. */
    public void begin(Fabric fabric) {
        if (Runtime.getRuntime().availableProcessors() == 1) {
            return;
        }
        Thread thread = new Thread(() -> calculate(fabric), "table of least delays");
        thread.setDaemon(true);
        thread.start();
    }

    /** Stops it, or what is begun later, as nothing will be asked. */
    public void stop() {
        stopped = true;
    }

    private void calculate(Fabric fabric) {
        try {
            FabricIndex.of(fabric).table(corner, LowerBoundTable.Goals.PADS, new Unreported());
        } catch (CancellationException | OutOfMemoryError again) {
            // Nothing is kept then: who needs the table calculates it, and meets any fault there.
        }
    }

    private final class Unreported implements Progress {
        @Override
        public void report(double fraction, String message) {}

        @Override
        public boolean cancelled() {
            return stopped;
        }
    }
}
