package padward.watch.own;

import java.util.List;
import padward.design.Netlist;
import padward.fabric.CellKind;

/**
 * A netlist that somebody brings along, on a fabric's kinds of cell.
 *
 * @param file name of its file, for faults
 * @param netlist the netlist
 * @param kinds the fabric's kinds of cell
 * @param notes what was left out when it was read, in words
 */
public record OwnNetlist(String file, Netlist netlist, List<CellKind> kinds, List<String> notes) {
    /** Copies the lists. */
    public OwnNetlist {
        kinds = List.copyOf(kinds);
        notes = List.copyOf(notes);
    }
}
