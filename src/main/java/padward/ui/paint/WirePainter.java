package padward.ui.paint;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import java.util.BitSet;
import padward.design.Occupancy;
import padward.fabric.Fabric;
import padward.ui.design.NetParts;
import padward.ui.design.TileIndex;
import padward.ui.design.TileLayout;
import padward.ui.design.TileRange;
import padward.ui.draw.Marks;
import padward.ui.draw.Raster;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/** Paints every wire in view: free ones first, used ones wider on top. */
final class WirePainter {
    /** Half the side of a cross, in tiles. */
    private static final double CROSS = 0.03;

    /** How much darker the wires of locked nets are. */
    private static final double LOCKED = 0.6;

    private final MapScene scene;
    private final Marks marks;
    private final TileIndex index;
    private final Fabric fabric;
    private final NetParts parts;
    private final double[] ends = new double[4];

    /** Used wires and their tiles, in pairs, drawn last. */
    private final IntArrayList used = new IntArrayList();

    WirePainter(MapScene scene, Marks marks) {
        this.scene = scene;
        this.marks = marks;
        this.index = scene.opened().index();
        this.fabric = scene.opened().design().fabric();
        this.parts = new NetParts(scene.opened());
    }

    void paint(TileRange seen) {
        if (scene.scale() < ZoomScales.WIRES) {
            return;
        }
        int free = Raster.pixel(scene.freeWires());
        // Long wires may start in tiles out of view.
        seen.grown(fabric, index.reach())
                .forEach(
                        tile -> {
                            boolean inside = seen.contains(tile);
                            int end = index.first(tile + 1);
                            for (int i = index.first(tile); i < end; i++) {
                                int wire = index.vertex(i);
                                if (index.head(wire) != Fabric.NOTHING
                                        && (inside || index.mayCross(seen, wire, tile))) {
                                    paintOrKeep(wire, tile, free);
                                }
                            }
                        });
        for (int wire : index.longWires()) {
            int tile = fabric.tile(wire);
            if (index.mayCross(seen, wire, tile)) {
                paintOrKeep(wire, tile, free);
            }
        }
        int strong = Raster.pixel(scene.usedWires());
        int locked = Raster.pixel(scene.usedWires().interpolate(scene.palette().ink(), LOCKED));
        BitSet closed = scene.opened().design().locks().closed();
        for (int i = 0; i < used.size(); i += 2) {
            int wire = used.getInt(i);
            usedLine(wire, used.getInt(i + 1), free, closed.get(wire) ? locked : strong);
        }
    }

    private void paintOrKeep(int wire, int tile, int free) {
        Occupancy occupancy = scene.opened().design().occupancy();
        if (scene.shows(MapLayer.OCCUPANCY) && occupancy.isUsed(wire)) {
            used.add(wire);
            used.add(tile);
        } else {
            line(wire, tile, 1, free);
        }
        if (scene.opened().design().fabric().unusable().isVertex(wire)) {
            crossOut(wire, tile);
        }
    }

    /** A cross on a wire that no route is to go over. */
    private void crossOut(int wire, int tile) {
        scene.opened().layout().wire(wire, tile, ends);
        double x = (ends[0] + ends[2]) / 2;
        double y = (ends[1] + ends[3]) / 2;
        int ink = Raster.pixel(scene.palette().ink());
        scene.line(marks, x - CROSS, y - CROSS, x + CROSS, y + CROSS, 2, ink);
        scene.line(marks, x - CROSS, y + CROSS, x + CROSS, y - CROSS, 2, ink);
    }

    private void line(int wire, int tile, int wide, int pixel) {
        if (index.isTapped(wire)) {
            scene.opened()
                    .layout()
                    .forEachLeg(
                            wire,
                            (x0, y0, x1, y1) -> scene.line(marks, x0, y0, x1, y1, wide, pixel));
            return;
        }
        scene.opened().layout().wire(wire, tile, ends);
        scene.line(marks, ends[0], ends[1], ends[2], ends[3], wide, pixel);
    }

    /** Of a used wire with taps, only the parts that its net uses are strong. */
    private void usedLine(int wire, int tile, int free, int strong) {
        if (!index.isTapped(wire)) {
            line(wire, tile, 2, strong);
            return;
        }
        line(wire, tile, 1, free);
        TileLayout layout = scene.opened().layout();
        parts.forEachPart(
                wire,
                (from, to) ->
                        layout.forEachLeg(
                                wire,
                                from,
                                to,
                                (x0, y0, x1, y1) -> scene.line(marks, x0, y0, x1, y1, 2, strong)));
    }
}
