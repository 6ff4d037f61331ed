package padward.ui.play;

import javafx.animation.Animation;
import javafx.animation.KeyFrame;
import javafx.animation.Timeline;
import javafx.util.Duration;

/** Ticks while something plays. */
final class PlayClock {
    private final Timeline ticks = new Timeline();
    private final Runnable tick;

    PlayClock(Runnable tick) {
        this.tick = tick;
        ticks.setCycleCount(Animation.INDEFINITE);
    }

    /**
     * Starts, changes the speed, or stops. A clock that already runs at this speed is not
     * restarted.
     *
     * @param speed ticks per second, at least 1
     */
    void run(boolean on, int speed) {
        Duration apart = Duration.millis(1000.0 / Math.max(1, speed));
        boolean same =
                ticks.getStatus() == Animation.Status.RUNNING
                        && ticks.getKeyFrames().get(0).getTime().equals(apart);
        if (on && same) {
            return;
        }
        ticks.stop();
        if (on) {
            ticks.getKeyFrames().setAll(new KeyFrame(apart, e -> tick.run()));
            ticks.play();
        }
    }
}
