package padward.clearance;

import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import it.unimi.dsi.fastutil.ints.IntSet;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import padward.design.Cell;
import padward.design.Design;
import padward.design.Edit;
import padward.design.Net;
import padward.design.RouteTree;
import padward.design.Terminal;
import padward.fabric.Fabric;
import padward.fabric.SitePin;
import padward.fabric.SiteView;

/** Gets cells out of the way: lets a signal through their site, or moves them to another. */
final class CellMover {
    private static final int SITES_TRIED = 6;

    private final Laying laying;
    private final Design design;
    private final Fabric fabric;
    private final int ownNet;

    CellMover(Laying laying) {
        this.laying = laying;
        this.design = laying.situation().design();
        this.fabric = design.fabric();
        this.ownNet = laying.situation().net().id();
    }

    /**
     * Lets a signal through a cell's site, when the fabric has a path there that the cell's own
     * nets leave alone.
     *
     * @param onWay the pins of the site that the way passes
     */
    Optional<Consequence.Movable> letThrough(Cell cell, List<Integer> onWay) {
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
                onWay.stream()
                        .allMatch(v -> fabric.siteOf(v) == cell.site() && !own.contains((int) v));
        return allUnused && !onWay.isEmpty()
                ? Optional.of(
                        new Consequence.Movable(
                                Consequence.Means.LET_THROUGH,
                                List.of(),
                                List.of(new Edit.SetCell(cell.name(), "through", "open"))))
                : Optional.empty();
    }

    /**
     * Moves a cell to a free site of its kind nearby, and lays its nets there.
     *
     * @param ground changed when the move succeeds, left alone when it fails
     */
    Optional<Consequence.Movable> moveCell(Cell cell, Ground ground) {
        boolean bound =
                design.netsAt(cell.id()).stream().anyMatch(n -> n.id() == ownNet)
                        || isAtEnable(cell);
        if (bound) {
            return Optional.empty();
        }
        SiteView from = fabric.site(cell.site());
        for (int site : nearestFreeSites(cell, from, ground)) {
            Ground tried = ground.copy();
            Optional<Consequence.Movable> moved = moveCell(cell, from, fabric.site(site), tried);
            if (moved.isPresent()) {
                ground.become(tried);
                return moved;
            }
        }
        return Optional.empty();
    }

    /** Whether a cell switches some pad's driver, which only this site can. */
    private boolean isAtEnable(Cell cell) {
        return fabric.pads().stream().anyMatch(p -> p.enableSite() == cell.site());
    }

    private List<Integer> nearestFreeSites(Cell cell, SiteView from, Ground ground) {
        List<Integer> result = new ArrayList<>();
        int x = fabric.column(from.tile());
        int y = fabric.row(from.tile());
        int reach = Math.max(fabric.columns(), fabric.rows());
        for (int ring = 0; ring <= reach && result.size() < SITES_TRIED; ring++) {
            for (int dy = -ring; dy <= ring; dy++) {
                int step = Math.abs(dy) == ring ? 1 : Math.max(1, 2 * ring);
                for (int dx = -ring; dx <= ring; dx += step) {
                    addFreeSites(cell, from, x + dx, y + dy, ground, result);
                }
            }
        }
        return result;
    }

    private void addFreeSites(
            Cell cell, SiteView from, int x, int y, Ground ground, List<Integer> result) {
        if (x < 0 || y < 0 || x >= fabric.columns() || y >= fabric.rows()) {
            return;
        }
        int tile = y * fabric.columns() + x;
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            SiteView view = fabric.site(site);
            List<String> names = from.pins().stream().map(SitePin::name).toList();
            boolean fits =
                    view.accepts().contains(cell.kind())
                            && view.pins().stream().map(SitePin::name).toList().equals(names)
                            && Steps.pinsOf(view).intStream().noneMatch(ground::isTaken)
                            && design.occupancy().findCellOn(site).isEmpty();
            if (fits && result.size() < SITES_TRIED) {
                result.add(site);
            }
        }
    }

    private Optional<Consequence.Movable> moveCell(
            Cell cell, SiteView from, SiteView to, Ground ground) {
        for (int pin = 0; pin < from.pins().size(); pin++) {
            int old = from.firstPin() + pin;
            if (design.occupancy().occupantId(old) == design.nets().size() + cell.id()) {
                ground.release(old);
            }
            ground.lay(to.firstPin() + pin);
        }
        Ends after =
                end ->
                        end instanceof Terminal.CellPin at && at.cell() == cell.id()
                                ? to.findPin(at.pin())
                                : design.vertexOf(end);
        List<Net> nets =
                design.netsAt(cell.id()).stream().sorted(Comparator.comparing(Net::id)).toList();
        List<Edit.LayNet> laid = new ArrayList<>();
        List<Shift> shifts = new ArrayList<>();
        for (Net net : nets) {
            if (ground.wasMoved(net.id()) || laying.isStuck(net, ground, after)) {
                return Optional.empty();
            }
            IntSet sinks = laying.reachedSinks(net, after);
            int root = after.vertexOf(net.driver());
            RouteTree kept =
                    root == net.route().root()
                            ? laying.keptPart(net, sinks, ground)
                            : RouteTree.of(root);
            laying.giveBack(net, kept, ground);
            Optional<RouteTree> tree = laying.lay(kept, sinks, ground);
            if (tree.isEmpty()) {
                return Optional.empty();
            }
            ground.noteMoved(net.id());
            laid.add(new Edit.LayNet(net.name(), tree.get()));
            if (net.route().size() > 1) {
                shifts.add(laying.shift(net, tree.get(), after));
            }
        }
        return Optional.of(
                new Consequence.Movable(
                        Consequence.Means.OTHER_SITE,
                        shifts,
                        List.of(new Edit.MoveCell(cell.name(), to.name(), laid))));
    }
}
