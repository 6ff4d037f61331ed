package padward.fabric;

/** What an edge of the routing graph stands for. */
public enum EdgeKind {
    /** A programmable connection in a switch box. */
    SWITCH,
    /** A fixed connection, always there. */
    CONNECTION,
    /**
     * A pass-through: a combinational connection through a site, from one of its pins to another.
     */
    PASS_THROUGH;

    /** The word used in files and on screens. */
    public String label() {
        return switch (this) {
            case SWITCH -> "switch";
            case CONNECTION -> "connection";
            case PASS_THROUGH -> "pass-through";
        };
    }
}
