package padward.ui.play;

import padward.ui.scene.Overlay;

/** Something that is played step by step. */
interface Player {
    /** How many steps have been taken. */
    int done();

    /** How many there are. */
    int size();

    /** Goes to the moment after so many steps, within bounds. */
    void goTo(int steps);

    /** The moment after the next step that people count, or the end. */
    default int next() {
        return Math.min(size(), done() + 1);
    }

    /** The moment after so many of these steps, or the end. */
    default int next(int count) {
        return Math.min(size(), done() + count);
    }

    /** How many steps the play takes at a time, so that it comes to an end while people look. */
    default int stride() {
        return 1;
    }

    /** The moment before the last step that people count, or the beginning. */
    default int previous() {
        return Math.max(0, done() - 1);
    }

    /** What the last step did, as a sentence. */
    String told();

    /** What the picture shows at this moment. */
    Overlay overlay();
}
