package padward.design;

import it.unimi.dsi.fastutil.ints.Int2IntOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.BitSet;
import java.util.List;
import java.util.Optional;
import padward.fabric.EdgeCursor;
import padward.fabric.EdgeKind;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/**
 * Who holds which vertex, derived once from a design's cells and nets. Immutable.
 *
 * <p>A cell holds all pins of its site, those that nets reach included: to free the cell is to free
 * them. A net holds the vertices of its tree and, where it goes through a site, all pins of that
 * site. A cell that lets signals through holds only the pins its own nets use. Thus a route is free
 * exactly when its vertices are, and a pass-through needs no test of its own.
 *
 * <p>Occupants are numbered: nets {@code 0 .. nets - 1}, then cells.
 */
public final class Occupancy {
    private final List<Cell> cells;
    private final List<Net> nets;
    private final Int2IntOpenHashMap occupantByVertex = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap netByVertex = new Int2IntOpenHashMap();
    private final Int2IntOpenHashMap cellBySite = new Int2IntOpenHashMap();
    private final BitSet occupied;

    Occupancy(Fabric fabric, List<Cell> cells, List<Net> nets) {
        this.cells = cells;
        this.nets = nets;
        this.occupied = new BitSet(fabric.vertexCount());
        occupantByVertex.defaultReturnValue(Fabric.NOTHING);
        netByVertex.defaultReturnValue(Fabric.NOTHING);
        cellBySite.defaultReturnValue(Fabric.NOTHING);
        EdgeCursor edges = fabric.edgesOut();
        for (Net net : nets) {
            holdTree(fabric, edges, net);
        }
        IntSet ownPins = pinsOfOpenCells(fabric);
        for (Cell cell : cells) {
            holdSite(fabric, cell, ownPins);
        }
    }

    /** The pins that cells which let signals through use themselves. */
    private IntSet pinsOfOpenCells(Fabric fabric) {
        IntSet result = new IntOpenHashSet();
        if (cells.stream().noneMatch(Cell::letsThrough)) {
            return result;
        }
        for (Net net : nets) {
            for (Terminal end : net.ends()) {
                if (end instanceof Terminal.CellPin at && cells.get(at.cell()).letsThrough()) {
                    result.add(fabric.site(cells.get(at.cell()).site()).findPin(at.pin()));
                }
            }
        }
        return result;
    }

    private void holdTree(Fabric fabric, EdgeCursor edges, Net net) {
        RouteTree tree = net.route();
        for (int place = 0; place < tree.size(); place++) {
            int vertex = tree.vertex(place);
            int before = netByVertex.put(vertex, net.id());
            if (before != Fabric.NOTHING) {
                throw new IllegalArgumentException(
                        fabric.vertexName(vertex) + " carries nets " + before + " and " + net.id());
            }
            hold(vertex, net.id());
            boolean through =
                    place > 0
                            && kindOfEdge(edges, tree.vertex(tree.parent(place)), vertex)
                                    == EdgeKind.PASS_THROUGH;
            if (through) {
                SiteView site = fabric.site(fabric.siteOf(vertex));
                for (int pin = 0; pin < site.pins().size(); pin++) {
                    hold(site.firstPin() + pin, net.id());
                }
            }
        }
    }

    private static EdgeKind kindOfEdge(EdgeCursor edges, int from, int to) {
        edges.reset(from);
        while (edges.next()) {
            if (edges.other() == to) {
                return edges.kind();
            }
        }
        throw new IllegalArgumentException("no edge from " + from + " to " + to);
    }

    private void holdSite(Fabric fabric, Cell cell, IntSet ownPins) {
        if (cellBySite.put(cell.site(), cell.id()) != Fabric.NOTHING) {
            throw new IllegalArgumentException("two cells on site " + cell.site());
        }
        SiteView site = fabric.site(cell.site());
        for (int pin = 0; pin < site.pins().size(); pin++) {
            int vertex = site.firstPin() + pin;
            if (!cell.letsThrough() || ownPins.contains(vertex)) {
                hold(vertex, nets.size() + cell.id());
            }
        }
    }

    private void hold(int vertex, int occupant) {
        occupantByVertex.put(vertex, occupant);
        occupied.set(vertex);
    }

    /** Whether anything holds the vertex. */
    public boolean isOccupied(int vertex) {
        return occupied.get(vertex);
    }

    /** The number of the vertex's occupant, or {@link Fabric#NOTHING}. */
    public int occupantId(int vertex) {
        return occupantByVertex.get(vertex);
    }

    /** The occupant of that number. */
    public Occupant occupant(int id) {
        return id < nets.size()
                ? new Occupant.ByNet(nets.get(id))
                : new Occupant.ByCell(cells.get(id - nets.size()));
    }

    /** The number of an occupant. */
    public int numberOf(Occupant occupant) {
        return occupant instanceof Occupant.ByCell cell
                ? nets.size() + cell.cell().id()
                : ((Occupant.ByNet) occupant).net().id();
    }

    /** What holds the vertex. */
    public Optional<Occupant> findOccupant(int vertex) {
        int id = occupantId(vertex);
        return id == Fabric.NOTHING ? Optional.empty() : Optional.of(occupant(id));
    }

    /** The net whose signal is on the vertex, also on pins of a used site. */
    public Optional<Net> findNetOn(int vertex) {
        int id = netByVertex.get(vertex);
        return id == Fabric.NOTHING ? Optional.empty() : Optional.of(nets.get(id));
    }

    /** The cell on a site. */
    public Optional<Cell> findCellOn(int site) {
        int id = cellBySite.get(site);
        return id == Fabric.NOTHING ? Optional.empty() : Optional.of(cells.get(id));
    }

    /**
     * All occupied vertices: the set itself, for searches that would lose time by copying it, and
     * not to be changed.
     */
    public BitSet bits() {
        return occupied;
    }

    /** How many vertices are occupied. */
    public int occupiedCount() {
        return occupied.cardinality();
    }
}
