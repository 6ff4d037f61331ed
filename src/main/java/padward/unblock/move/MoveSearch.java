package padward.unblock.move;

import java.util.List;
import java.util.Optional;
import padward.design.Design;
import padward.design.Net;
import padward.design.Occupant;
import padward.design.RouteTree;
import padward.route.search.CheckedRouteFinder;
import padward.route.search.VertexPath;
import padward.unblock.release.QuestionContext;

/**
 * Finds out whether what is on a route can make room: really reroutes nets and relocates cells, on
 * a {@link OccupancyOverlay} of its own. Works on a design in which everything that is to be
 * removed has been removed already.
 */
public final class MoveSearch {
    private final Design design;
    private final NetRerouter rerouter;
    private final NetMoveSearch nets;
    private final CellMoveSearch cells;

    /**
     * @param own the net of the question, which stays as it is
     * @param depth how deep other nets may be pushed aside
     */
    public MoveSearch(Design design, Net own, CheckedRouteFinder finder, int depth) {
        this.design = design;
        this.rerouter = new NetRerouter(new QuestionContext(design, own, Optional.empty()), finder);
        this.nets = new NetMoveSearch(rerouter, depth);
        this.cells = new CellMoveSearch(rerouter);
    }

    /** As {@link NetRerouter#overlayFor}. */
    public OccupancyOverlay overlayFor(RouteTree tree, VertexPath route, int enableSite) {
        return rerouter.overlayFor(tree, route, enableSite);
    }

    /**
     * Moves an occupant aside, by the mildest means that works: other wires, a signal passed
     * through a site, another site.
     *
     * @param onlyNet where wires of one net alone are on the route, that net's name
     * @param vertices what it uses on the route
     * @param overlay changed when the move succeeds, left alone when it fails
     */
    public Optional<Consequence.Movable> move(
            Occupant occupant,
            Optional<String> onlyNet,
            List<Integer> vertices,
            OccupancyOverlay overlay) {
        if (occupant instanceof Occupant.ByNet) {
            return moveNet(occupant.name(), overlay);
        }
        // Where only wires of one net at the cell block the route, moving these is enough.
        return onlyNet.flatMap(n -> moveNet(n, overlay))
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
                                                                                        overlay))));
    }

    private Optional<Consequence.Movable> moveNet(String name, OccupancyOverlay overlay) {
        return design.findNet(name).flatMap(n -> nets.moveNet(n, overlay));
    }
}
