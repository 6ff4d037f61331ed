package padward.ui.scene;

import padward.design.RouteTree;
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

    /** A wire, or any other vertex, from its start to its end. */
    public void vertex(int vertex, Surface.Line line) {
        TileLayout layout = scene.opened().layout();
        line(layout.start(vertex), layout.end(vertex), line);
    }

    /**
     * A switch or fixed connection from the end of one vertex to the start of another, and then
     * that vertex itself; to a pad only as far as its inner edge, so that its name stays legible.
     */
    public void onward(int from, int vertex, Surface.Line line) {
        TileLayout layout = scene.opened().layout();
        if (layout.pads().isPad(vertex)) {
            line(layout.end(from), layout.innerEdge(vertex), line);
        } else {
            line(layout.end(from), layout.start(vertex), line);
            vertex(vertex, line);
        }
    }

    /** A route: its first vertex, then each further one with the connection to it. */
    public void route(int[] vertices, Surface.Line line) {
        vertex(vertices[0], line);
        for (int i = 1; i < vertices.length; i++) {
            onward(vertices[i - 1], vertices[i], line);
        }
    }

    /** The whole tree of a net. */
    public void tree(RouteTree tree, Surface.Line line) {
        vertex(tree.root(), line);
        for (int place = 1; place < tree.size(); place++) {
            onward(tree.vertex(tree.parent(place)), tree.vertex(place), line);
        }
    }
}
