package padward.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import padward.fabric.EdgeCursor;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * What of a design must stay as it is. A locked cell stays on its site with its settings; a locked
 * net keeps its wires and its ends, and with it the cells and ports at which it ends. Nothing else
 * may come to what they use, nor to what the fabric marks as unusable. Immutable.
 */
public final class Locks {
    private final Design design;
    private final boolean any;

    /** Cells that must stay, by number. */
    private final BitSet cells = new BitSet();

    /** Unusable vertices, and those that what must stay uses. */
    private final BitSet closed;

    /** Pins of cells that must stay, which they use only while a net that may go ends there. */
    private final Int2IntOpenHashMap netAtPin = new Int2IntOpenHashMap();

    /** Of a design of which nothing is locked. */
    private Locks(Design design) {
        this.design = design;
        this.any = false;
        this.closed = design.fabric().unusable().vertices();
    }

    private Locks(Design design, List<Cell> locked, List<Net> lockedNets) {
        this.design = design;
        this.any = true;
        this.closed = (BitSet) design.fabric().unusable().vertices().clone();
        locked.forEach(c -> cells.set(c.id()));
        EdgeCursor edges = design.fabric().edgesOut();
        for (Net net : lockedNets) {
            for (Terminal end : net.ends()) {
                if (end instanceof Terminal.CellPin at) {
                    cells.set(at.cell());
                }
            }
            for (int vertex : net.route().toVertices()) {
                closed.set(vertex);
            }
            for (int site : Occupancy.sitesThrough(design.fabric(), edges, net.route())) {
                closePins(site, Occupant.ofNet(net.id()));
            }
        }
        cells.stream().forEach(c -> close(design.cells().get(c)));
    }

    /** Those of a design; O(cells + nets + what is locked uses) where anything is locked. */
    static Locks of(Design design, boolean anyLocked) {
        if (!anyLocked) {
            return new Locks(design);
        }
        return new Locks(
                design,
                design.cells().stream().filter(Cell::locked).toList(),
                design.nets().stream().filter(n -> n.lock().keepsWires()).toList());
    }

    private void closePins(int site, int occupant) {
        SiteView view = design.fabric().site(site);
        for (int pin = 0; pin < view.pins().size(); pin++) {
            if (design.occupancy().occupantId(view.firstPin() + pin) == occupant) {
                closed.set(view.firstPin() + pin);
            }
        }
    }

    private void close(Cell cell) {
        if (!cell.letsThrough()) {
            closePins(cell.site(), Occupant.ofCell(cell.id()));
            return;
        }
        for (Net net : design.netsAt(cell.id())) {
            for (Terminal end : net.ends()) {
                boolean here = end instanceof Terminal.CellPin at && at.cell() == cell.id();
                if (here && net.lock().keepsWires()) {
                    closed.set(design.vertexOf(end));
                } else if (here) {
                    netAtPin.put(design.vertexOf(end), net.id());
                }
            }
        }
    }

    /** Whether nothing is locked. */
    public boolean isEmpty() {
        return !any;
    }

    /** Whether an occupant, see {@link Occupant}, must stay. */
    public boolean keeps(int occupant) {
        if (!any || occupant == Fabric.NOTHING) {
            return false;
        }
        return Occupant.isCell(occupant)
                ? cells.get(Occupant.cellOf(occupant))
                : design.nets()
                        .find(Occupant.netOf(occupant))
                        .filter(n -> n.lock().keepsWires())
                        .isPresent();
    }

    /** Why a cell must stay, as a clause; empty when it may go. */
    public Optional<String> whyKept(Cell cell) {
        if (!any || !cells.get(cell.id())) {
            return Optional.empty();
        }
        return cell.locked()
                ? Optional.of("cell " + cell.name() + " is locked")
                : whyKept(design.netsAt(cell.id()));
    }

    /** Why a net must stay, as a clause; empty when it may go. */
    public Optional<String> whyKept(Net net) {
        return whyKept(List.of(net));
    }

    private static Optional<String> whyKept(List<Net> nets) {
        return nets.stream()
                .filter(n -> n.lock().keepsWires())
                .map(n -> "net " + n.name() + " is locked")
                .findFirst();
    }

    /** Why a port must keep its pad, as a clause; empty when it may lose it. */
    public Optional<String> whyKept(Port port) {
        if (!any) {
            return Optional.empty();
        }
        Optional<String> atPort = whyKept(design.netsAtPort(port.id()));
        return atPort.isPresent()
                ? atPort
                : whyKept(
                        EnableBranch.of(design, port, design::findPortOn).stream()
                                .map(EnableBranch::net)
                                .toList());
    }

    /**
     * The vertices that nothing can make usable: the unusable ones, and those used by what must
     * stay. Shared by searches, and not to be changed.
     */
    public BitSet closed() {
        return closed;
    }

    /**
     * The number of a net that ends at a pin of a cell which must stay and lets signals through:
     * without the net, the pin is free. {@link Fabric#NOTHING} for other pins.
     */
    public int netAtPin(int vertex) {
        return netAtPin.isEmpty() ? Fabric.NOTHING : netAtPin.getOrDefault(vertex, Fabric.NOTHING);
    }
}
