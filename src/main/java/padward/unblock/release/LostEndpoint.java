package padward.unblock.release;

/**
 * Where a signal ends that would be lost: an input of a register or memory, a port, or the very net
 * that is to be brought out.
 *
 * @param kind what it is
 * @param name {@code cell.pin}, or the port's or net's name
 */
public record LostEndpoint(Kind kind, String name) {
    /** Kinds of endpoint. */
    public enum Kind {
        /** A pin of a cell that holds state, or of one that drives nothing. */
        PIN,
        /** A cell that does its work without driving a net, such as switching a pad's driver. */
        CELL,
        /** A port of the design. */
        PORT,
        /** The net of the question itself. */
        OWN_NET
    }

    /** As a person says it. */
    public String toText() {
        return switch (kind) {
            case PIN -> name;
            case CELL -> "cell " + name + " itself";
            case PORT -> "port " + name;
            case OWN_NET -> "net " + name + " itself";
        };
    }
}
