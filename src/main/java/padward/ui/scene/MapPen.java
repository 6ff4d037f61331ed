package padward.ui.scene;

import java.util.BitSet;
import padward.design.RouteTree;
import padward.fabric.Fabric;
import padward.ui.design.TileLayout;
import padward.ui.draw.Surface;

/**
 * Draws wires, and lines between places of the map, on a surface: places are in world units, lines
 * in pixels.
 *
 * @param scene where things are, and which part is shown
 * @param out the surface to draw on
 */
public record MapPen(MapScene scene, Surface out) {
    /** A line between two places. */
    public void line(TileLayout.Point from, TileLayout.Point to, Surface.Line line) {
        out.line(
                scene.view().screenX(from.x()),
                scene.view().screenY(from.y()),
                scene.view().screenX(to.x()),
                scene.view().screenY(to.y()),
                line);
    }

    /** A wire, all of it; nothing for other vertices. */
    public void vertex(int vertex, Surface.Line line) {
        scene.opened().layout().forEachLeg(vertex, leg(line));
    }

    /** The part of a wire between two of its taps, by their tiles. */
    private void part(int vertex, int fromTile, int toTile, Surface.Line line) {
        scene.opened().layout().forEachLeg(vertex, fromTile, toTile, leg(line));
    }

    private TileLayout.Leg leg(Surface.Line line) {
        return (x0, y0, x1, y1) ->
                out.line(
                        scene.view().screenX(x0),
                        scene.view().screenY(y0),
                        scene.view().screenX(x1),
                        scene.view().screenY(y1),
                        line);
    }

    /**
     * A switch or fixed connection from one vertex to the next, in the tile where they meet; to a
     * pad only as far as its inner edge, so that its name stays legible.
     */
    private void connection(int from, int to, TileLayout.Meeting where, Surface.Line line) {
        scene.opened().layout().connection(from, to, where, leg(line));
    }

    /** A connection, and then the whole vertex that it leads to. */
    public void onward(int from, int vertex, Surface.Line line) {
        connection(from, vertex, scene.opened().layout().meeting(from, vertex), line);
        if (!scene.opened().layout().pads().isPad(vertex)) {
            vertex(vertex, line);
        }
    }

    /** A route: of each wire the part that it uses, and the connections between them. */
    public void route(int[] vertices, Surface.Line line) {
        route(vertices, leg(line));
    }

    /** The same, taken leg by leg in the signal's order: places in world units. */
    public void route(int[] vertices, TileLayout.Leg leg) {
        TileLayout layout = scene.opened().layout();
        boolean tapped = scene.opened().index().isTapped(vertices[0]);
        if (!tapped || vertices.length == 1) {
            layout.forEachLeg(vertices[0], leg);
        }
        int enters = Fabric.NOTHING;
        for (int i = 1; i < vertices.length; i++) {
            TileLayout.Meeting where = layout.meeting(vertices[i - 1], vertices[i]);
            if (enters != Fabric.NOTHING) {
                layout.forEachLeg(vertices[i - 1], enters, where.fromTile(), leg);
            }
            layout.connection(vertices[i - 1], vertices[i], where, leg);
            enters = where.toTile();
        }
        int last = vertices[vertices.length - 1];
        if (vertices.length > 1 && !layout.pads().isPad(last)) {
            layout.forEachLeg(last, leg);
        }
    }

    /** The part that a route uses of one of its wires; nothing for pins and pads. */
    public void hop(int[] vertices, int hop, Surface.Line line) {
        TileLayout layout = scene.opened().layout();
        if (hop == 0 || hop == vertices.length - 1) {
            vertex(vertices[hop], line);
        } else {
            int enters = layout.meeting(vertices[hop - 1], vertices[hop]).toTile();
            int leaves = layout.meeting(vertices[hop], vertices[hop + 1]).fromTile();
            part(vertices[hop], enters, leaves, line);
        }
    }

    /**
     * The whole tree of a net: of each wire the parts that it uses, and all of one that leads
     * nowhere.
     */
    public void tree(RouteTree tree, Surface.Line line) {
        TileLayout layout = scene.opened().layout();
        int[] enters = new int[tree.size()];
        BitSet goesOn = new BitSet();
        enters[0] = Fabric.NOTHING;
        for (int place = 1; place < tree.size(); place++) {
            int parent = tree.parent(place);
            int from = tree.vertex(parent);
            int to = tree.vertex(place);
            TileLayout.Meeting where = layout.meeting(from, to);
            connection(from, to, where, line);
            if (enters[parent] != Fabric.NOTHING) {
                part(from, enters[parent], where.fromTile(), line);
            } else if (!goesOn.get(parent)) {
                vertex(from, line);
            }
            goesOn.set(parent);
            enters[place] = where.toTile();
        }
        for (int place = 0; place < tree.size(); place++) {
            if (!goesOn.get(place) && !layout.pads().isPad(tree.vertex(place))) {
                vertex(tree.vertex(place), line);
            }
        }
    }
}
