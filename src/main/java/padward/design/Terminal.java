package padward.design;

/** Where a net begins or ends. */
public sealed interface Terminal {
    /**
     * A pin of a cell.
     *
     * @param cell number of the cell
     * @param pin name of the pin at the cell's site
     */
    record CellPin(int cell, String pin) implements Terminal {}

    /**
     * A port of the design.
     *
     * @param port number of the port
     */
    record PortEnd(int port) implements Terminal {}
}
