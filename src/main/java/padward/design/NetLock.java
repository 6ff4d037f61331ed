package padward.design;

import java.util.Locale;

/** What of a net must stay as it is, as the design's file states it. */
public enum NetLock {
    /** Nothing: it may be rerouted and removed. */
    NONE,
    /** Its wires and its ends; a branch may be added. */
    WIRES,
    /** All of it: no branch may be added either. */
    WHOLE;

    /** The word in files and tables. */
    public String label() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** Whether its wires and ends must stay. */
    public boolean keepsWires() {
        return this != NONE;
    }
}
