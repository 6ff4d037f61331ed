package padward.ui.paint;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import padward.design.Occupancy;
import padward.fabric.Fabric;
import padward.ui.design.TileIndex;
import padward.ui.design.TileRange;
import padward.ui.draw.Marks;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/** Paints every wire in view: free ones first, used ones wider on top. */
final class WirePainter {
    private final MapScene scene;
    private final Marks marks;
    private final TileIndex index;
    private final Fabric fabric;
    private final double[] ends = new double[4];

    /** Used wires and their tiles, in pairs, drawn last. */
    private final IntArrayList used = new IntArrayList();

    WirePainter(MapScene scene, Marks marks) {
        this.scene = scene;
        this.marks = marks;
        this.index = scene.opened().index();
        this.fabric = scene.opened().design().fabric();
    }

    void paint(TileRange seen) {
        if (scene.scale() < ZoomScales.WIRES) {
            return;
        }
        Palette colors = scene.palette();
        int free = Raster.pixel(colors.tile().interpolate(colors.box(), 0.5));
        // Long wires may start in tiles out of view.
        seen.grown(fabric, index.reach())
                .forEach(
                        tile -> {
                            boolean inside = seen.contains(tile);
                            int end = index.first(tile + 1);
                            for (int i = index.first(tile); i < end; i++) {
                                int wire = index.vertex(i);
                                int head = index.head(wire);
                                if (head != Fabric.NOTHING
                                        && (inside || mayCross(seen, tile, head))) {
                                    paintOrKeep(wire, tile, free);
                                }
                            }
                        });
        for (int wire : index.longWires()) {
            int tile = fabric.tile(wire);
            if (mayCross(seen, tile, index.head(wire))) {
                paintOrKeep(wire, tile, free);
            }
        }
        int strong = Raster.pixel(colors.usedStrong());
        for (int i = 0; i < used.size(); i += 2) {
            line(used.getInt(i), used.getInt(i + 1), 2, strong);
        }
    }

    /** Whether a wire between two tiles may be in view. */
    private boolean mayCross(TileRange seen, int tile, int head) {
        int x0 = fabric.column(tile);
        int x1 = fabric.column(head);
        int y0 = fabric.row(tile);
        int y1 = fabric.row(head);
        return Math.max(x0, x1) >= seen.left()
                && Math.min(x0, x1) <= seen.right()
                && Math.max(y0, y1) >= seen.bottom()
                && Math.min(y0, y1) <= seen.top();
    }

    private void paintOrKeep(int wire, int tile, int free) {
        Occupancy occupancy = scene.opened().design().occupancy();
        if (scene.shows(MapLayer.OCCUPANCY) && occupancy.isOccupied(wire)) {
            used.add(wire);
            used.add(tile);
        } else {
            line(wire, tile, 1, free);
        }
    }

    private void line(int wire, int tile, int wide, int pixel) {
        scene.opened().layout().wire(wire, tile, ends);
        scene.line(marks, ends[0], ends[1], ends[2], ends[3], wide, pixel);
    }
}
