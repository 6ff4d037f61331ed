package padward.design.compact;

import java.io.IOException;
import java.util.List;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Port;
import padward.design.board.Board;
import padward.fabric.Fabric;
import padward.fabric.compact.CompactIn;
import padward.fabric.compact.CompactOut;

/** A design that was read from a file, in its compact copy; its fabric and board are elsewhere. */
public final class CompactDesign {
    private CompactDesign() {}

    /**
     * Writes it. O(size of the design).
     *
     * @param design one without gaps in its numbers
     * @throws IOException when it cannot be written, or has a name that no file can state
     */
    public static void write(CompactOut out, Design design) throws IOException {
        out.text(design.name());
        out.text(design.note());
        out.list(design.ports(), port -> PortParts.write(out, port));
        CellParts.Writer cells = new CellParts.Writer(out, design);
        out.list(design.cells(), cells::write);
        NetParts.Writer nets = new NetParts.Writer(out, design, cells.pins());
        out.list(design.nets(), nets::write);
    }

    /**
     * Reads it.
     *
     * @param fabric the very one that the design stands on
     * @param latestPs the greatest required time that a file can state
     * @throws IOException when it is not sound on this fabric
     */
    public static Design read(CompactIn in, Fabric fabric, Board board, int latestPs)
            throws IOException {
        String name = in.text();
        String note = in.text();
        PortParts portParts = new PortParts(in, fabric);
        List<Port> ports = in.list(portParts::read);
        CellParts cellParts = new CellParts(in, fabric);
        List<Cell> cells = in.list(cellParts::read);
        NetParts netParts = new NetParts(in, fabric, cells, cellParts.pins(), ports, latestPs);
        List<Net> nets = in.list(netParts::read);
        return Design.ofChecked(name, note, fabric, board, cells, nets, ports);
    }
}
