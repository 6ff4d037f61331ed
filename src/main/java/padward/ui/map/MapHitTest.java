package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import padward.fabric.Fabric;
import padward.fabric.WholeSite;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileRange;
import padward.ui.scene.ZoomScales;

/** Finds what is at a place on the map. */
final class MapHitTest {
    /** How close the pointer must be to a wire, pixels. */
    private static final double REACH = 5;

    private final OpenDesign opened;
    private final Fabric fabric;
    private final MapItemDescriber describer;

    /** Finds things of one design. */
    MapHitTest(OpenDesign opened) {
        this.opened = opened;
        this.fabric = opened.design().fabric();
        this.describer = new MapItemDescriber(opened);
    }

    /**
     * The thing at a place; empty when there is nothing, or everything is too small.
     *
     * @param x world x, tiles
     * @param y world y, tiles
     * @param scale pixels per tile
     */
    Optional<MapItem> find(double x, double y, double scale) {
        int column = (int) Math.floor(x);
        int row = (int) Math.floor(y);
        // Pads extend beyond the rim by less than a tile.
        TileRange around =
                new TileRange(column, column, row, row, fabric.columns()).grown(fabric, 1);
        Optional<MapItem> pad = scale >= ZoomScales.PADS ? pad(around, x, y) : Optional.empty();
        if (pad.isPresent()) {
            return pad;
        }
        boolean outside =
                column < 0 || row < 0 || column >= fabric.columns() || row >= fabric.rows();
        if (outside) {
            return Optional.empty();
        }
        int tile = row * fabric.columns() + column;
        if (scale < ZoomScales.PARTS) {
            return Optional.of(describer.tile(tile));
        }
        if (scale >= ZoomScales.BOX && opened.diagram(tile).contains(x, y)) {
            OptionalInt vertex = opened.diagram(tile).vertexAt(x, y);
            return Optional.of(
                    vertex.isPresent()
                            ? describer.vertexIn(vertex.getAsInt(), tile)
                            : describer.box(tile));
        }
        return site(tile, x, y)
                .or(() -> frame(tile, x, y))
                .or(
                        () ->
                                scale >= ZoomScales.WIRES
                                        ? wire(around, tile, x, y, scale)
                                        : Optional.empty())
                .or(() -> Optional.of(describer.tile(tile)));
    }

    private Optional<MapItem> site(int tile, double x, double y) {
        int column = fabric.column(tile);
        int row = fabric.row(tile);
        List<Integer> found = new ArrayList<>();
        opened.layout()
                .forEachSite(
                        TileRange.of(fabric, column, column, row, row),
                        (site, box) -> {
                            if (box.contains(x, y)) {
                                found.add(site);
                            }
                        });
        return found.stream().findFirst().map(fabric::site).map(describer::site);
    }

    /** The site whose parts are in a frame around a place, between the parts. */
    private Optional<MapItem> frame(int tile, double x, double y) {
        int column = fabric.column(tile);
        int row = fabric.row(tile);
        List<Integer> found = new ArrayList<>();
        opened.layout()
                .forEachFrame(
                        TileRange.of(fabric, column, column, row, row),
                        (site, box) -> {
                            if (box.contains(x, y)) {
                                found.add(site);
                            }
                        });
        return found.stream().findFirst().map(s -> describer.whole(WholeSite.of(fabric, s)));
    }

    private Optional<MapItem> pad(TileRange around, double x, double y) {
        List<Integer> found = new ArrayList<>();
        opened.layout()
                .pads()
                .forEachIn(
                        around,
                        pad -> {
                            if (opened.layout().pad(pad).contains(x, y)) {
                                found.add(pad);
                            }
                        });
        return found.stream().findFirst().map(describer::pad);
    }

    private Optional<MapItem> wire(TileRange around, int here, double x, double y, double scale) {
        int best = Fabric.NOTHING;
        double least = REACH / scale;
        double[] ends = new double[4];
        TileRange sought = around.grown(fabric, opened.index().reach());
        for (int row = sought.bottom(); row <= sought.top(); row++) {
            for (int column = sought.left(); column <= sought.right(); column++) {
                int tile = row * fabric.columns() + column;
                int end = opened.index().first(tile + 1);
                for (int i = opened.index().first(tile); i < end; i++) {
                    int wire = opened.index().vertex(i);
                    double away = distance(wire, tile, x, y, ends);
                    if (away < least) {
                        least = away;
                        best = wire;
                    }
                }
            }
        }
        for (int wire : opened.index().longWires()) {
            double away = distance(wire, fabric.tile(wire), x, y, ends);
            if (away < least) {
                least = away;
                best = wire;
            }
        }
        return best == Fabric.NOTHING
                ? Optional.empty()
                : Optional.of(describer.vertexIn(best, here));
    }

    private double distance(int wire, int tile, double x, double y, double[] ends) {
        if (opened.index().head(wire) == Fabric.NOTHING) {
            return Double.MAX_VALUE;
        }
        if (opened.index().isTapped(wire)) {
            double[] least = {Double.MAX_VALUE};
            opened.layout()
                    .forEachLeg(
                            wire,
                            (x0, y0, x1, y1) ->
                                    least[0] = Math.min(least[0], distance(x, y, x0, y0, x1, y1)));
            return least[0];
        }
        opened.layout().wire(wire, tile, ends);
        return distance(x, y, ends[0], ends[1], ends[2], ends[3]);
    }

    /** The distance of a point from a line between two others. */
    private static double distance(double x, double y, double x0, double y0, double x1, double y1) {
        double dx = x1 - x0;
        double dy = y1 - y0;
        double length = dx * dx + dy * dy;
        double at = length == 0 ? 0 : ((x - x0) * dx + (y - y0) * dy) / length;
        double part = Math.max(0, Math.min(1, at));
        return Math.hypot(x - x0 - part * dx, y - y0 - part * dy);
    }
}
