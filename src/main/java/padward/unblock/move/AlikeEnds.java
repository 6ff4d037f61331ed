package padward.unblock.move;

import java.util.ArrayList;
import java.util.List;
import padward.change.Edit;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Terminal;
import padward.fabric.AlikePins;
import padward.fabric.Fabric;
import padward.fabric.SiteView;

/** At which other pins of its cell an end of a net may be. */
final class AlikeEnds {
    private final Design design;
    private final Fabric fabric;

    AlikeEnds(Design design) {
        this.design = design;
        this.fabric = design.fabric();
    }

    /** An end's new pin. */
    record Place(int vertex, Edit.PinSwap swap) {}

    /**
     * The free pins that are alike, in their order.
     *
     * @param sink vertex of a sink of the net
     * @param ends where its ends are
     */
    List<Place> of(Net net, int sink, NetEnds ends, OccupancyOverlay overlay) {
        List<Place> result = new ArrayList<>();
        for (Terminal end : net.sinks()) {
            if (end instanceof Terminal.CellPin at && ends.vertexOf(end) == sink) {
                addPlaces(at, sink, overlay, result);
            }
        }
        return result;
    }

    /** Whether the site has pins that are like that of an end. */
    boolean isLikeOthers(Terminal.CellPin end) {
        Cell cell = design.cells().get(end.cell());
        SiteView site = fabric.site(cell.site());
        return !AlikePins.of(fabric, site, cell.kind(), end.pin()).isEmpty();
    }

    private void addPlaces(
            Terminal.CellPin at, int sink, OccupancyOverlay overlay, List<Place> result) {
        Cell cell = design.cells().get(at.cell());
        SiteView site = fabric.site(fabric.siteOf(sink));
        if (cell.locked()) {
            return;
        }
        for (String pin : AlikePins.of(fabric, site, cell.kind(), at.pin())) {
            int vertex = site.findPin(pin);
            boolean relocated = site.id() != cell.site();
            boolean used =
                    endsAt(cell, pin)
                            || cell.isTied(pin)
                            || overlay.isReserved(vertex)
                            || overlay.isNewEnd(vertex)
                            || !relocated
                                    && (overlay.isNew(vertex)
                                            || design.occupancy().findNetOn(vertex).isPresent());
            if (!used) {
                result.add(new Place(vertex, new Edit.PinSwap(cell.name(), at.pin(), pin)));
            }
        }
    }

    private boolean endsAt(Cell cell, String pin) {
        Terminal end = new Terminal.CellPin(cell.id(), pin);
        return design.netsAt(cell.id()).stream().anyMatch(n -> n.ends().contains(end));
    }
}
