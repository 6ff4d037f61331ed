package padward.ui.play;

import padward.ui.scene.MapOverlay;

/** Something that is played step by step. */
interface StepPlayer {
    /** Number of steps taken. */
    int done();

    /** Number of all steps. */
    int size();

    /** Goes to the moment after a number of steps, within bounds. */
    void goTo(int steps);

    /** The moment after the next step as the window counts them, or the end. */
    default int next() {
        return Math.min(size(), done() + 1);
    }

    /** The moment after a number of these steps, or the end. */
    default int next(int count) {
        return Math.min(size(), done() + count);
    }

    /** Number of steps taken at each tick, so that a large search ends in reasonable time. */
    default int stride() {
        return 1;
    }

    /** The moment before the last step as the window counts them, or the beginning. */
    default int previous() {
        return Math.max(0, done() - 1);
    }

    /** What the last step did, as a sentence. */
    String text();

    /** What the map shows at this moment. */
    MapOverlay overlay();
}
