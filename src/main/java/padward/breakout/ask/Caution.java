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
        /** The pad or its board net is named like one for tests or configuration. */
        CONFIGURATION("configuration"),
        /** Voltages do not agree. */
        VOLTAGE("voltage"),
        /** What is on the pad is not known. */
        UNKNOWN("unknown"),
        /** The pad's driver has an enable. */
        ENABLE("enable"),
        /** A resistor pulls the pad to a rail that is not known. */
        PULL("pull"),
        /** A light is on the pad. */
        LIGHT("light"),
        /** Levels that a part on the board must tolerate. */
        LEVEL("level"),
        /** Many outputs of a bank that switch together. */
        SWITCHING("switching"),
        /** What an instrument can see of a signal that no register drives, or of a group. */
        GLITCHES("glitches"),
        /** An edge that is short against its line. */
        RINGING("ringing"),
        /** What pads do while a design is loaded. */
        LOADING("loading"),
        /** How leads are connected. */
        HANDLING("handling"),
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
            return needsYes()
                    || this == PORT
                    || this == PAD
                    || this == VOLTAGE
                    || this == CONFIGURATION;
        }

        /** Whether a change is kept only when somebody has accepted this. */
        public boolean needsYes() {
            return this == DRIVES || this == FOLLOWS || this == READS;
        }
    }
}
