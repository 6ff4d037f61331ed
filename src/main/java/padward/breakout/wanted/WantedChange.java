package padward.breakout.wanted;

import java.util.Locale;

/**
 * What became of a wanted net.
 *
 * @param kind what sort of change
 * @param text in words
 */
public record WantedChange(Kind kind, String text) {
    /** Sorts of change. */
    public enum Kind {
        /** The earlier design has no net of that name, and none with the same driver. */
        NEW,
        /** No net of that name, and none with the same driver. */
        GONE,
        /** The same driver's net has another name. */
        RENAMED,
        /** A route existed, and none exists now. */
        NEWLY_BLOCKED,
        /** A port is on the pad that was not on it. */
        PORT_ON_PAD,
        /** Another of the pads is now the best. */
        OTHER_PAD,
        /** The delay at the pin is another. */
        DELAY_MOVED;

        /** As it is written. */
        public String label() {
            return name().toLowerCase(Locale.ROOT).replace('_', '-');
        }
    }
}
