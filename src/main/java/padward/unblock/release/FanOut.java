package padward.unblock.release;

import it.unimi.dsi.fastutil.ints.Int2ObjectOpenHashMap;
import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.Port;
import padward.design.Terminal;
import padward.fabric.EnableSites;
import padward.fabric.Fabric;
import padward.fabric.Pad;

/**
 * What depends on an occupant, followed through the cells. Occupants have the numbers of {@link
 * padward.design.Occupancy}. Results are kept; one object belongs to one thread.
 */
public final class FanOut {
    private final Design design;
    private final Net own;
    private final int ownNet;
    private final int ownDriver;
    private final int portLeaving;
    private final int enableSite;
    private final int padVertex;

    /** What was asked for before: without its clock, thousands of endpoints lose their signal. */
    private final Int2ObjectOpenHashMap<List<LostEndpoint>> lost = new Int2ObjectOpenHashMap<>();

    /**
     * @param pad the pad of the question, whose port loses it
     */
    public FanOut(QuestionContext context, Pad pad) {
        this(
                context.design(),
                context.net(),
                context.disconnected().map(DisconnectedBranch::port),
                pad);
    }

    /**
     * @param net the net that is to be brought out
     * @param leaving the port that loses the pad with a branch of its net, if one does
     * @param pad the pad of the question
     */
    public FanOut(Design design, Net net, Optional<Port> leaving, Pad pad) {
        this.design = design;
        this.own = net;
        this.ownNet = net.id();
        this.ownDriver = net.driverCell();
        this.portLeaving = leaving.map(Port::id).orElse(Fabric.NOTHING);
        this.enableSite = pad.enableSite();
        this.padVertex = pad.vertex();
    }

    /**
     * Whether everything that the occupant feeds, however far, ends in the port that loses its pad.
     * A cell without nets of its own does something else, and is removable only if it switches the
     * driver of the pad in question. O(what it feeds).
     */
    public boolean isRemovable(int occupant) {
        IntSet cellsSeen = new IntOpenHashSet();
        IntArrayList cells = new IntArrayList();
        List<Net> nets = new ArrayList<>();
        int cell = Occupant.isCell(occupant) ? Occupant.cellOf(occupant) : Fabric.NOTHING;
        if (cell != Fabric.NOTHING) {
            cellsSeen.add(cell);
            nets.addAll(design.netsDrivenBy(cell));
            if (nets.isEmpty() || isAtOtherEnable(cell)) {
                return design.cells().get(cell).site() == enableSite && !isAtOtherEnable(cell);
            }
        } else {
            nets.add(design.nets().get(occupant));
        }
        while (true) {
            for (Net net : nets) {
                if (net.id() == ownNet || !sparing(net, cellsSeen, cells)) {
                    return false;
                }
            }
            nets.clear();
            if (cells.isEmpty()) {
                return true;
            }
            int next = cells.popInt();
            nets.addAll(design.netsDrivenBy(next));
            if ((nets.isEmpty() || isAtOtherEnable(next))
                    && design.cells().get(next).site() != enableSite) {
                return false;
            }
        }
    }

    /** Whether a cell switches the driver of another pad. */
    private boolean isAtOtherEnable(int cell) {
        int site = design.cells().get(cell).site();
        return EnableSites.of(design.fabric())
                .padsAt(site)
                .intStream()
                .anyMatch(p -> design.fabric().pads().get(p).vertex() != padVertex);
    }

    /** Notes a net's sink cells; false when it reaches another port, or what drives our own net. */
    private boolean sparing(Net net, IntSet seen, IntArrayList cells) {
        if (!switched(net).isEmpty()) {
            return false;
        }
        for (Terminal sink : net.sinks()) {
            if (sink instanceof Terminal.PortEnd end) {
                if (end.port() != portLeaving) {
                    return false;
                }
            } else {
                int cell = ((Terminal.CellPin) sink).cell();
                if (cell == ownDriver) {
                    return false;
                }
                if (seen.add(cell)) {
                    cells.add(cell);
                }
            }
        }
        return true;
    }

    /**
     * The endpoints that lose their signal, or get a wrong one, when the occupant is removed; none
     * for what is removable.
     */
    public List<LostEndpoint> losing(int occupant) {
        List<LostEndpoint> result = lost.get(occupant);
        if (result == null) {
            result = isRemovable(occupant) ? List.of() : findLost(occupant);
            lost.put(occupant, result);
        }
        return result;
    }

    private List<LostEndpoint> findLost(int occupant) {
        Set<LostEndpoint> result = new LinkedHashSet<>();
        IntSet seen = new IntOpenHashSet();
        List<Net> nets = new ArrayList<>();
        int removed = Occupant.isCell(occupant) ? Occupant.cellOf(occupant) : Fabric.NOTHING;
        if (removed != Fabric.NOTHING) {
            nets.addAll(design.netsDrivenBy(removed));
            if (nets.isEmpty() || isAtOtherEnable(removed)) {
                String name = design.cells().get(removed).name();
                result.add(new LostEndpoint(LostEndpoint.Kind.CELL, name));
            }
        } else {
            nets.add(design.nets().get(occupant));
        }
        for (int i = 0; i < nets.size(); i++) {
            switched(nets.get(i))
                    .forEach(p -> result.add(new LostEndpoint(LostEndpoint.Kind.PORT, p.name())));
            for (Terminal sink : nets.get(i).sinks()) {
                follow(sink, removed, seen, nets, result);
            }
        }
        return List.copyOf(result);
    }

    /** The ports on other pads whose drivers a net switches. */
    private List<Port> switched(Net net) {
        return design.switchedBy(net).stream()
                .filter(p -> design.fabric().pads().get(p.pad()).vertex() != padVertex)
                .toList();
    }

    private void follow(
            Terminal sink, int removed, IntSet seen, List<Net> nets, Set<LostEndpoint> result) {
        if (sink instanceof Terminal.PortEnd end) {
            if (end.port() != portLeaving) {
                String name = design.ports().get(end.port()).name();
                result.add(new LostEndpoint(LostEndpoint.Kind.PORT, name));
            }
            return;
        }
        int cell = ((Terminal.CellPin) sink).cell();
        boolean ofThisPad = design.cells().get(cell).site() == enableSite;
        if (cell == removed || ofThisPad && portLeaving != Fabric.NOTHING) {
            return;
        }
        List<Net> driven = design.netsDrivenBy(cell);
        if (holdsState(design.cells().get(cell)) || driven.isEmpty()) {
            result.add(new LostEndpoint(LostEndpoint.Kind.PIN, design.textOf(sink)));
        } else if (seen.add(cell)) {
            nets.addAll(driven);
            if (cell == ownDriver) {
                result.add(new LostEndpoint(LostEndpoint.Kind.OWN_NET, own.name()));
            }
        }
    }

    private boolean holdsState(Cell cell) {
        return design.fabric().info().canHoldState(cell.kind());
    }
}
