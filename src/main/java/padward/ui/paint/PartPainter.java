package padward.ui.paint;

import java.util.Optional;
import padward.design.Cell;
import padward.design.Occupancy;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.ui.draw.Marks;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.scene.Layer;
import padward.ui.scene.MapScene;
import padward.ui.scene.Opened;
import padward.ui.scene.Scales;
import padward.ui.scene.TileLayout;
import padward.ui.scene.TileRange;

/** Paints boxes, sites and pads, and their names where there is room. */
final class PartPainter {
    private static final double CORNER = 0.4;
    private static final double LEAST_PILL = 15;
    private static final double PIN = 3;

    private final MapScene scene;
    private final Viewport view;
    private final Palette colors;
    private final Opened opened;
    private final Fabric fabric;
    private final Occupancy occupancy;
    private final int ground;
    private final int rim;
    private final int free;
    private final int held;

    PartPainter(MapScene scene) {
        this.scene = scene;
        this.view = scene.view();
        this.colors = scene.palette();
        this.opened = scene.opened();
        this.fabric = opened.design().fabric();
        this.occupancy = opened.design().occupancy();
        this.ground = Raster.pixel(colors.tile());
        this.rim = Raster.pixel(colors.box());
        this.free = Raster.pixel(colors.site());
        this.held = Raster.pixel(colors.held());
    }

    /** Switch boxes, as discs. */
    void paintBoxes(Marks marks, TileRange seen) {
        if (scene.scale() >= Scales.PARTS) {
            seen.forEach(tile -> paintBox(marks, tile));
        }
    }

    /** Sites and pads. */
    void paintSites(Marks marks, TileRange seen) {
        if (scene.scale() >= Scales.PARTS) {
            seen.forEach(tile -> paintSites(marks, tile));
        }
        opened.layout().pads().forEachIn(seen, pad -> paintPad(marks, pad));
    }

    private boolean isHeld(int vertex) {
        return scene.shows(Layer.OCCUPANCY) && occupancy.isOccupied(vertex);
    }

    private Optional<Cell> cellOn(int site) {
        return scene.shows(Layer.OCCUPANCY) ? occupancy.findCellOn(site) : Optional.empty();
    }

    private void paintBox(Marks marks, int tile) {
        TileLayout.Point box = opened.layout().box(tile);
        marks.disc(
                view.screenX(box.x()),
                view.screenY(box.y()),
                TileLayout.BOX_RADIUS * scene.scale(),
                ground,
                rim);
    }

    private void paintSites(Marks marks, int tile) {
        boolean withPins = scene.scale() >= Scales.NAMES;
        int ink = Raster.pixel(colors.ink());
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            TileLayout.Box place = opened.layout().site(site, tile);
            double w = place.width() * scene.scale();
            double h = place.height() * scene.scale();
            marks.box(
                    view.screenX(place.x()),
                    view.screenY(place.y() + place.height()),
                    w,
                    h,
                    Math.min(w, h) * CORNER,
                    cellOn(site).isPresent() ? held : free,
                    rim);
            if (withPins && isSeen(place)) {
                paintPins(marks, fabric.site(site), ink);
            }
        }
    }

    private void paintPins(Marks marks, SiteView site, int ink) {
        for (int pin = 0; pin < site.pins().size(); pin++) {
            TileLayout.Point at = opened.layout().end(site.firstPin() + pin);
            marks.box(
                    view.screenX(at.x()) - PIN / 2,
                    view.screenY(at.y()) - PIN / 2,
                    PIN,
                    PIN,
                    0,
                    ink,
                    ink);
        }
    }

    private boolean isSeen(TileLayout.Box box) {
        double x = view.screenX(box.x());
        double y = view.screenY(box.y() + box.height());
        return x <= view.width()
                && y <= view.height()
                && x + box.width() * scene.scale() >= 0
                && y + box.height() * scene.scale() >= 0;
    }

    private void paintPad(Marks marks, int pad) {
        TileLayout.Box box = opened.layout().pad(pad);
        // From afar a pad is still a dot.
        double w = Math.max(1, box.width() * scene.scale());
        double h = Math.max(1, box.height() * scene.scale());
        boolean isHeld = isHeld(fabric.pads().get(pad).vertex());
        int inside = isHeld ? held : free;
        marks.box(
                view.screenX(box.x()),
                view.screenY(box.y() + box.height()),
                w,
                h,
                Math.min(w, h),
                inside,
                scene.scale() >= Scales.PADS ? Raster.pixel(colors.ink()) : rim);
    }

    /** Names of pads, and from near of sites and cells. */
    void names(Surface out, TileRange seen) {
        if (scene.scale() >= Scales.PARTS) {
            opened.layout().pads().forEachIn(seen, pad -> padName(out, pad));
        }
        if (scene.scale() >= Scales.NAMES) {
            seen.forEach(
                    tile -> {
                        int end = fabric.firstSite(tile + 1);
                        for (int site = fabric.firstSite(tile); site < end; site++) {
                            TileLayout.Box box = opened.layout().site(site, tile);
                            if (isSeen(box)) {
                                siteNames(out, fabric.site(site), box);
                            }
                        }
                    });
        }
    }

    private void padName(Surface out, int index) {
        TileLayout.Box box = opened.layout().pad(index);
        double w = box.width() * scene.scale();
        double h = box.height() * scene.scale();
        if (Math.min(w, h) > LEAST_PILL) {
            Pad pad = fabric.pads().get(index);
            String name = pad.packagePin().isEmpty() ? "pad" : pad.packagePin();
            text(out, name, view.screenX(box.centreX()), view.screenY(box.centreY()));
        }
    }

    private void siteNames(Surface out, SiteView site, TileLayout.Box box) {
        double x = view.screenX(box.centreX());
        double y = view.screenY(box.centreY());
        double w = box.width() * scene.scale();
        double h = box.height() * scene.scale();
        String name = site.name().substring(site.name().indexOf('/') + 1);
        label(out, name, cellOn(site.id()).map(Cell::name), x, y, w, h);
    }

    /** The site's name, and the cell's under it, as far as there is room. */
    private void label(
            Surface out,
            String name,
            Optional<String> cell,
            double x,
            double y,
            double w,
            double h) {
        double size = fontSize(scene.scale());
        int room = (int) (w / (size * 0.58)) - 1;
        if (room < 3 || h < size * 1.3) {
            return;
        }
        boolean both = cell.isPresent() && h > size * 2.6;
        String first = both || cell.isEmpty() ? name : cell.get();
        text(out, shortened(first, room), x, both ? y - size * 0.6 : y);
        if (both) {
            text(out, shortened(cell.get(), room), x, y + size * 0.6);
        }
    }

    private void text(Surface out, String text, double x, double y) {
        double size = fontSize(scene.scale());
        out.text(text, x, y, new Surface.Lettering(size, Surface.Align.CENTER, colors.ink()));
    }

    /** The end of a hierarchical name tells more than its beginning. */
    static String shortened(String name, int room) {
        if (name.length() <= room) {
            return name;
        }
        return room < 2 ? "" : "…" + name.substring(name.length() - room + 1);
    }

    /** Size of letters on the map, pixels. */
    static double fontSize(double scale) {
        return Math.min(13, Math.max(10, scale / 26));
    }
}
