package padward.clearance;

import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.route.Path;
import padward.route.WayFinder;

/**
 * Finds out whether what stands on a way can make room: really lays nets and cells elsewhere, on a
 * {@link Ground} of its own. Works on a design in which everything that is to be freed has been
 * freed already.
 */
final class Mover {
    private final Design design;
    private final Laying laying;
    private final NetMover nets;
    private final CellMover cells;

    /**
     * @param own the net of the question, which stays as it is
     * @param depth how deep other nets may be pushed aside
     */
    Mover(Design design, Net own, WayFinder finder, int depth) {
        this.design = design;
        this.laying = new Laying(new Situation(design, own, Optional.empty()), finder);
        this.nets = new NetMover(laying, depth);
        this.cells = new CellMover(laying);
    }

    /** As {@link Laying#groundFor}. */
    Ground groundFor(RouteTree tree, Path way, int enableSite) {
        return laying.groundFor(tree, way, enableSite);
    }

    /**
     * Moves an occupant out of the way, by the mildest means that works: other wires, a signal let
     * through a site, another site.
     *
     * @param onlyNet where wires of one net alone stand on the way, that net's name
     * @param vertices what it holds on the way
     * @param ground changed when the move succeeds, left alone when it fails
     */
    Optional<Consequence.Movable> move(
            Occupant occupant, Optional<String> onlyNet, List<Integer> vertices, Ground ground) {
        if (occupant instanceof Occupant.ByNet) {
            return moveNet(occupant.name(), ground);
        }
        // Where only wires of one net at the cell are in the way, moving these is enough.
        return onlyNet.flatMap(n -> moveNet(n, ground))
                .or(
                        () ->
                                design.findCell(occupant.name())
                                        .flatMap(
                                                c ->
                                                        cells.letThrough(c, vertices)
                                                                .or(
                                                                        () ->
                                                                                cells.moveCell(
                                                                                        c,
                                                                                        ground))));
    }

    private Optional<Consequence.Movable> moveNet(String name, Ground ground) {
        return design.findNet(name).flatMap(n -> nets.moveNet(n, ground));
    }
}
