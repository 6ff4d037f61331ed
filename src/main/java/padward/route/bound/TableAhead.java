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
    /** The table may take one part of so many of what the heap may grow to. */
    private static final int MEMORY_SHARE = 8;

    /**
     * What it takes a tile while it is calculated: 6 bytes an entry, entries for four tiles (it
     * reaches as far to each side as the fabric is long), and more planes than regular fabrics
     * have.
     */
    private static final int BYTES_A_TILE = 6 * 4 * 32;

    private final Corner corner;

    /** What is being calculated, or was. */
    private Calculation latest = new Calculation();

    /**
     * @param corner the corner that questions will be about
     */
    public TableAhead(Corner corner) {
        this.corner = corner;
    }

    /**
     * Begins with a fabric, and returns at once; what was begun with another one is stopped. Does
     * nothing where the table might take memory that the reader needs.
     */
    public void begin(Fabric fabric) {
        stop();
        long memory = Runtime.getRuntime().maxMemory();
        boolean fits = (long) BYTES_A_TILE * fabric.tileCount() <= memory / MEMORY_SHARE;
        if (Runtime.getRuntime().availableProcessors() == 1 || !fits) {
            return;
        }
        Calculation now = new Calculation();
        latest = now;
        Thread thread = new Thread(() -> calculate(fabric, now), "table of least delays");
        thread.setDaemon(true);
        thread.start();
    }

    /** Stops what was begun: no question will be asked. */
    public void stop() {
        latest.stopped = true;
    }

    private void calculate(Fabric fabric, Calculation now) {
        try {
            FabricIndex.of(fabric).table(corner, LowerBoundTable.Goals.PADS, now);
        } catch (CancellationException | OutOfMemoryError again) {
            // Nothing is kept then: who needs the table calculates it, and meets any fault there.
        }
    }

    private static final class Calculation implements Progress {
        private volatile boolean stopped;

        @Override
        public void report(double fraction, String message) {}

        @Override
        public boolean cancelled() {
            return stopped;
        }
    }
}
