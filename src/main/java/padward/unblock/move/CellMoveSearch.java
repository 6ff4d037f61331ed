package padward.unblock.move;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import padward.change.Edit;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SitePin;
import padward.fabric.SiteView;

/** Makes room at cells: passes a signal through their site, or relocates them. */
final class CellMoveSearch {
    private static final int SITES_TRIED = 6;

    private final NetRerouter rerouter;
    private final Design design;
    private final Fabric fabric;
    private final int ownNet;

    CellMoveSearch(NetRerouter rerouter) {
        this.rerouter = rerouter;
        this.design = rerouter.context().design();
        this.fabric = design.fabric();
        this.ownNet = rerouter.context().net().id();
    }

    /**
     * Lets a signal through a cell's site, when the fabric has a path there that the cell's own
     * nets leave alone.
     *
     * @param onRoute the pins of the site that the route passes
     */
    Optional<Consequence.Movable> letThrough(Cell cell, List<Integer> onRoute) {
        if (cell.letsThrough() || isAtEnable(cell)) {
            return Optional.empty();
        }
        IntSet own = new IntOpenHashSet();
        for (Net net : design.netsAt(cell.id())) {
            for (Terminal end : net.ends()) {
                if (end instanceof Terminal.CellPin at && at.cell() == cell.id()) {
                    own.add(design.vertexOf(end));
                }
            }
        }
        boolean allUnused =
                onRoute.stream()
                        .allMatch(v -> fabric.siteOf(v) == cell.site() && !own.contains((int) v));
        return allUnused && !onRoute.isEmpty()
                ? Optional.of(
                        new Consequence.Movable(
                                Consequence.Means.PASS_THROUGH,
                                List.of(),
                                List.of(new Edit.SetCell(cell.name(), "through", "open"))))
                : Optional.empty();
    }

    /**
     * Moves a cell to a free site of its kind nearby, and routes its nets there.
     *
     * @param overlay changed when the move succeeds, left alone when it fails
     */
    Optional<Consequence.Movable> moveCell(Cell cell, OccupancyOverlay overlay) {
        boolean bound =
                design.netsAt(cell.id()).stream().anyMatch(n -> n.id() == ownNet)
                        || isAtEnable(cell);
        if (bound) {
            return Optional.empty();
        }
        SiteView from = fabric.site(cell.site());
        for (int site : nearestFreeSites(cell, from, overlay)) {
            OccupancyOverlay tried = overlay.copy();
            Optional<Consequence.Movable> moved = moveCell(cell, from, fabric.site(site), tried);
            if (moved.isPresent()) {
                overlay.become(tried);
                return moved;
            }
        }
        return Optional.empty();
    }

    /** Whether a cell switches some pad's driver, which only this site can. */
    private boolean isAtEnable(Cell cell) {
        return fabric.pads().stream().anyMatch(p -> p.enableSite() == cell.site());
    }

    private List<Integer> nearestFreeSites(Cell cell, SiteView from, OccupancyOverlay overlay) {
        List<Integer> result = new ArrayList<>();
        int x = fabric.column(from.tile());
        int y = fabric.row(from.tile());
        int reach = Math.max(fabric.columns(), fabric.rows());
        for (int ring = 0; ring <= reach && result.size() < SITES_TRIED; ring++) {
            for (int dy = -ring; dy <= ring; dy++) {
                int step = Math.abs(dy) == ring ? 1 : Math.max(1, 2 * ring);
                for (int dx = -ring; dx <= ring; dx += step) {
                    addFreeSites(cell, from, x + dx, y + dy, overlay, result);
                }
            }
        }
        return result;
    }

    private void addFreeSites(
            Cell cell,
            SiteView from,
            int x,
            int y,
            OccupancyOverlay overlay,
            List<Integer> result) {
        if (x < 0 || y < 0 || x >= fabric.columns() || y >= fabric.rows()) {
            return;
        }
        int tile = y * fabric.columns() + x;
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            SiteView view = fabric.site(site);
            List<String> names = from.pins().stream().map(SitePin::name).toList();
            boolean fits =
                    !fabric.unusable().isSite(site)
                            && view.accepts().contains(cell.kind())
                            && view.pins().stream().map(SitePin::name).toList().equals(names)
                            && StepDelays.pinsOf(view).intStream().noneMatch(overlay::isTaken)
                            && design.occupancy().findCellOn(site).isEmpty();
            if (fits && result.size() < SITES_TRIED) {
                result.add(site);
            }
        }
    }

    private Optional<Consequence.Movable> moveCell(
            Cell cell, SiteView from, SiteView to, OccupancyOverlay overlay) {
        for (int pin = 0; pin < from.pins().size(); pin++) {
            int old = from.firstPin() + pin;
            if (design.occupancy().occupantId(old) == Occupant.ofCell(cell.id())) {
                overlay.release(old);
            }
            overlay.route(to.firstPin() + pin);
        }
        NetEnds after =
                end ->
                        end instanceof Terminal.CellPin at && at.cell() == cell.id()
                                ? to.findPin(at.pin())
                                : design.vertexOf(end);
        List<Net> nets =
                design.netsAt(cell.id()).stream().sorted(Comparator.comparing(Net::id)).toList();
        List<Edit.RouteNet> routed = new ArrayList<>();
        List<DelayChange> delayChanges = new ArrayList<>();
        for (Net net : nets) {
            if (overlay.wasMoved(net.id()) || rerouter.isStuck(net, overlay, after)) {
                return Optional.empty();
            }
            IntSet sinks = rerouter.reachedSinks(net, after);
            int root = after.vertexOf(net.driver());
            RouteTree kept =
                    root == net.route().root()
                            ? rerouter.keptPart(net, sinks, overlay)
                            : RouteTree.of(root);
            rerouter.giveBack(net, kept, overlay);
            Optional<NetRerouter.Rerouted> found =
                    rerouter.route(net, kept, sinks, after, true, overlay);
            if (found.isEmpty()) {
                return Optional.empty();
            }
            overlay.noteMoved(net.id());
            routed.add(found.get().of(net));
            if (net.route().size() > 1) {
                NetEnds ends = rerouter.after(after, found.get().swaps());
                delayChanges.add(rerouter.delayChange(net, found.get().tree(), ends));
            }
        }
        return Optional.of(
                new Consequence.Movable(
                        Consequence.Means.RELOCATE,
                        delayChanges,
                        List.of(new Edit.RelocateCell(cell.name(), to.name(), routed))));
    }
}
