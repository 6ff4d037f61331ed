package padward.breakout.ask;

/**
 * One caution about driving a pad.
 *
 * @param kind what it is about
 * @param text the caution, as a sentence or two
 */
public record Caution(Kind kind, String text) {
    /** What a caution is about, the gravest first. */
    public enum Kind {
        /** A part on the board drives the pad. */
        DRIVES("drives"),
        /** A port of the design loses the pad. */
        PORT("port"),
        /** A part on the board will follow the signal. */
        FOLLOWS("follows"),
        /** The package does not connect the pad, or it is for something else. */
        PAD("pad"),
        /** The design reads the board through the pad. */
        READS("reads"),
        /** What is on the pad is not known. */
        UNKNOWN("unknown"),
        /** Voltages do not agree. */
        VOLTAGE("voltage"),
        /** The pad's driver has an enable. */
        ENABLE("enable"),
        /** What holds for every pad. */
        GENERAL("general");

        private final String label;

        Kind(String label) {
            this.label = label;
        }

        /** The word in files and options. */
        public String label() {
            return label;
        }

        /** Whether somebody may be hurt or a part destroyed. */
        public boolean isSerious() {
            return needsYes() || this == PORT || this == PAD || this == VOLTAGE;
        }

        /** Whether a change is kept only when somebody has accepted this. */
        public boolean needsYes() {
            return this == DRIVES || this == FOLLOWS || this == READS;
        }
    }
}
