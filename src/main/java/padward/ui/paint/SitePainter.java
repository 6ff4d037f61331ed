package padward.ui.paint;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;
import padward.design.Cell;
import padward.design.Occupancy;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.pad.PadUse;
import padward.ui.design.OpenDesign;
import padward.ui.design.TileLayout;
import padward.ui.design.TileRange;
import padward.ui.draw.Marks;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.Surface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.ZoomScales;

/** Paints switch boxes, sites and pads, and their names where there is room. */
final class SitePainter {
    private static final double CORNER = 0.4;
    private static final double FRAME_CORNER = 0.12;
    private static final double PIN = 3;
    private static final double LOCK = 2;
    private static final double IN_PILL = 5;
    private static final double LINE = 1.2;
    private static final double UPWARDS = -90;
    private static final double SMALLER = 0.8;

    /** What names leave free of a site's width, so that they touch neither its rim nor its pins. */
    private static final double CLEAR_OF_PINS = 8;

    /** A shortened name with fewer letters is useless. */
    private static final int LEAST_LETTERS = 6;

    /** The end of a pin's name that says something. */
    private static final int LEAST_OF_PIN = 2;

    private final MapScene scene;
    private final Viewport view;
    private final Palette colors;
    private final OpenDesign opened;
    private final Fabric fabric;
    private final Occupancy occupancy;
    private final int ground;
    private final int rim;
    private final int free;
    private final int used;

    SitePainter(MapScene scene) {
        this.scene = scene;
        this.view = scene.view();
        this.colors = scene.palette();
        this.opened = scene.opened();
        this.fabric = opened.design().fabric();
        this.occupancy = opened.design().occupancy();
        this.ground = Raster.pixel(colors.tile());
        this.rim = Raster.pixel(colors.box());
        this.free = Raster.pixel(colors.site());
        this.used = Raster.pixel(colors.used());
    }

    /** Paints switch boxes, as discs. */
    void paintBoxes(Marks marks, TileRange seen) {
        if (scene.scale() >= ZoomScales.PARTS) {
            seen.forEach(
                    tile -> {
                        if (!opened.index().isEmpty(tile)) {
                            paintBox(marks, tile);
                        }
                    });
        }
    }

    /** Paints sites and pads. */
    void paintSites(Marks marks, TileRange seen) {
        if (scene.scale() >= ZoomScales.PARTS) {
            int frame = Raster.pixel(colors.tile().interpolate(colors.site(), 0.5));
            opened.layout().forEachFrame(seen, (site, box) -> frame(marks, box, frame));
            boolean withPins = scene.scale() >= ZoomScales.NAMES;
            int ink = Raster.pixel(colors.ink());
            opened.layout()
                    .forEachSite(
                            seen,
                            (site, box) -> {
                                paintSite(marks, site, box);
                                if (withPins && isSeen(box)) {
                                    paintPins(marks, fabric.site(site), ink);
                                }
                            });
        }
        opened.layout().pads().forEachIn(seen, pad -> paintPad(marks, pad));
    }

    private void frame(Marks marks, TileLayout.Box box, int inside) {
        double w = box.width() * scene.scale();
        double h = box.height() * scene.scale();
        marks.box(
                view.screenX(box.x()),
                view.screenY(box.y() + box.height()),
                w,
                h,
                Math.min(w, h) * FRAME_CORNER,
                inside,
                rim);
    }

    private boolean isUsed(int vertex) {
        return scene.shows(MapLayer.OCCUPANCY) && occupancy.isUsed(vertex);
    }

    private Optional<Cell> cellOn(int site) {
        return scene.shows(MapLayer.OCCUPANCY) ? occupancy.findCellOn(site) : Optional.empty();
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

    private void paintSite(Marks marks, int site, TileLayout.Box box) {
        double w = box.width() * scene.scale();
        double h = box.height() * scene.scale();
        marks.box(
                view.screenX(box.x()),
                view.screenY(box.y() + box.height()),
                w,
                h,
                Math.min(w, h) * CORNER,
                cellOn(site).isPresent() ? used : free,
                rim);
        if (cellOn(site).filter(Cell::locked).isPresent()) {
            lock(marks, box, Math.min(w, h));
        }
        if (fabric.unusable().isSite(site)) {
            cross(marks, box, Raster.pixel(colors.ink()));
        }
    }

    /** A second rim, of ink, for a cell that must stay. */
    private void lock(Marks marks, TileLayout.Box box, double size) {
        double in = Math.max(LOCK, size * 0.06);
        double w = box.width() * scene.scale() - 2 * in;
        double h = box.height() * scene.scale() - 2 * in;
        if (w > 0 && h > 0) {
            marks.box(
                    view.screenX(box.x()) + in,
                    view.screenY(box.y() + box.height()) + in,
                    w,
                    h,
                    Math.min(w, h) * CORNER,
                    used,
                    Raster.pixel(colors.ink()));
        }
    }

    /** Crosses out a site where no cell is to be placed. */
    private void cross(Marks marks, TileLayout.Box box, int ink) {
        double left = view.screenX(box.x());
        double right = view.screenX(box.x() + box.width());
        double below = view.screenY(box.y());
        double above = view.screenY(box.y() + box.height());
        marks.line(left, below, right, above, 1, ink);
        marks.line(left, above, right, below, 1, ink);
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
        // Zoomed out, a pad is at least a dot.
        double w = Math.max(1, box.width() * scene.scale());
        double h = Math.max(1, box.height() * scene.scale());
        boolean isUsed = isUsed(fabric.pads().get(pad).vertex());
        int inside = isUsed ? used : free;
        marks.box(
                view.screenX(box.x()),
                view.screenY(box.y() + box.height()),
                w,
                h,
                Math.min(w, h),
                inside,
                scene.scale() >= ZoomScales.PADS ? Raster.pixel(colors.ink()) : rim);
        if (scene.scale() >= ZoomScales.PARTS) {
            padUse(marks, pad, box);
        }
    }

    /** A stroke through a pad that is not offered, and a line to the other pad of a pair. */
    private void padUse(Marks marks, int index, TileLayout.Box box) {
        Pad pad = fabric.pads().get(index);
        int ink = Raster.pixel(colors.ink());
        // Where the role is written, a stroke would only cross it out.
        if (!pad.use().isOffered() && !showsRole(pad, box)) {
            double in = Math.min(box.width(), box.height()) * 0.15;
            scene.line(
                    marks,
                    box.x() + in,
                    box.y() + in,
                    box.x() + box.width() - in,
                    box.y() + box.height() - in,
                    1,
                    ink);
        }
        String partner = pad.use().driving().partner();
        int other = partner.isEmpty() ? Fabric.NOTHING : fabric.findVertex(partner);
        if (other > pad.vertex() && opened.layout().pads().isPad(other)) {
            pair(marks, box, opened.layout().pillAt(other), ink);
        }
    }

    private void pair(Marks marks, TileLayout.Box one, TileLayout.Box other, int ink) {
        double x = other.centreX() - one.centreX();
        double y = other.centreY() - one.centreY();
        boolean across = Math.abs(x) > Math.abs(y);
        double signX = across ? Math.signum(x) / 2 : 0;
        double signY = across ? 0 : Math.signum(y) / 2;
        scene.line(
                marks,
                one.centreX() + signX * one.width(),
                one.centreY() + signY * one.height(),
                other.centreX() - signX * other.width(),
                other.centreY() - signY * other.height(),
                3,
                ink);
    }

    /** Paints names of pads and, zoomed in, of sites and cells. */
    void names(Surface out, TileRange seen) {
        if (scene.scale() >= ZoomScales.PARTS) {
            opened.layout().pads().forEachIn(seen, pad -> padName(out, pad));
        }
        if (scene.scale() >= ZoomScales.NAMES) {
            opened.layout()
                    .forEachFrame(
                            seen,
                            (site, box) -> {
                                if (isSeen(box)) {
                                    frameName(out, site, box);
                                }
                            });
            opened.layout()
                    .forEachSite(
                            seen,
                            (site, box) -> {
                                if (isSeen(box)) {
                                    siteNames(out, fabric.site(site), box);
                                }
                            });
        }
    }

    private void padName(Surface out, int index) {
        TileLayout.Box box = opened.layout().pad(index);
        double w = box.width() * scene.scale();
        double h = box.height() * scene.scale();
        Pad pad = fabric.pads().get(index);
        String name = pad.packagePin().isEmpty() ? "pad" : pad.packagePin();
        double along = w - IN_PILL;
        if (LINE * leastOfPin() > h) {
            return;
        }
        double x = view.screenX(box.centreX());
        double y = view.screenY(box.centreY());
        boolean both = showsRole(pad, box);
        double up = both ? LINE * letters() / 2 : 0;
        pinName(name, along)
                .ifPresent(
                        shown -> {
                            double high = Math.min(letters(), h / LINE);
                            double wide = along / Surface.Lettering.width(shown, 1);
                            double size = Math.max(leastOfPin(), Math.min(high, wide));
                            out.text(
                                    shown,
                                    x,
                                    y - up,
                                    new Surface.Lettering(
                                            size, Surface.Align.CENTER, colors.ink()));
                        });
        if (both) {
            text(out, role(pad), x, y + up, roleRoom(box), false);
        }
    }

    /** A pin's name, or its end where the whole does not fit; empty where that does not either. */
    private Optional<String> pinName(String name, double along) {
        if (fitsPill(name, along)) {
            return Optional.of(name);
        }
        return IntStream.rangeClosed(1, name.length() - LEAST_OF_PIN)
                .mapToObj(from -> "…" + name.substring(from))
                .filter(end -> fitsPill(end, along))
                .findFirst();
    }

    private boolean fitsPill(String name, double along) {
        return Surface.Lettering.width(name, leastOfPin()) <= along;
    }

    /** Larger text makes the names of pads larger where there is room; it never hides one. */
    private double leastOfPin() {
        return SMALLER * fontSize(scene.scale());
    }

    private boolean showsRole(Pad pad, TileLayout.Box box) {
        String role = role(pad);
        double h = box.height() * scene.scale();
        return !role.isEmpty() && 2.4 * LINE * letters() <= h && fits(role, roleRoom(box));
    }

    /** The length of the lower of two lines in a pill, whose ends are round. */
    private double roleRoom(TileLayout.Box box) {
        double w = box.width() * scene.scale();
        double h = box.height() * scene.scale();
        double r = Math.min(w, h) / 2;
        double foot = Math.min(r, (LINE + 0.7) * letters() / 2);
        return w - 2 * r + 2 * Math.sqrt(r * r - foot * foot) - IN_PILL;
    }

    /** What a pad is for, in one word; empty for general ones. */
    private static String role(Pad pad) {
        PadUse use = pad.use();
        if (use.bonding() == PadUse.Bonding.UNBONDED) {
            return "unbonded";
        }
        return switch (use.role()) {
            case GENERAL -> "";
            case CONFIGURATION -> "config";
            case CLOCK, TEST, REFERENCE, RESERVED -> use.role().label();
        };
    }

    private void siteNames(Surface out, SiteView site, TileLayout.Box box) {
        double x = view.screenX(box.centreX());
        double y = view.screenY(box.centreY());
        double w = box.width() * scene.scale();
        double h = box.height() * scene.scale();
        // The frame around parts has the name of the site.
        String name = site.isPart() ? site.part() : inTile(site.name());
        label(out, name, cellOn(site.id()).map(Cell::name), x, y, w, h);
    }

    private static String inTile(String name) {
        return name.substring(name.indexOf('/') + 1);
    }

    /** The name of a site with parts, in the head of its frame, if it is legible there. */
    private void frameName(Surface out, int site, TileLayout.Box frame) {
        TileLayout.Box part = opened.layout().site(site);
        double head = (frame.y() + frame.height() - part.y() - part.height()) * scene.scale();
        String name = inTile(fabric.site(site).wholeName());
        double w = frame.width() * scene.scale();
        double size = Math.min(letters(), head * 0.9);
        if (size >= SMALLER * letters() && Surface.Lettering.width(name, size) <= w) {
            out.text(
                    name,
                    view.screenX(frame.centreX()),
                    view.screenY(frame.y() + frame.height()) + head / 2,
                    new Surface.Lettering(size, Surface.Align.CENTER, colors.ink()));
        }
    }

    /**
     * Paints the site's name and the cell's below it, as far as there is room; upwards in a site
     * that is too narrow. A site's name is painted completely or not at all; a cell's may be
     * shortened.
     */
    private void label(
            Surface out,
            String name,
            Optional<String> cell,
            double x,
            double y,
            double w,
            double h) {
        double level = w - CLEAR_OF_PINS;
        boolean whole = fits(name, level) && cell.map(c -> fits(lastPart(c), level)).orElse(true);
        boolean upwards = h > w && !whole;
        double along = upwards ? h - CLEAR_OF_PINS : level;
        double across = upwards ? w : h;
        double step = LINE * letters();
        List<String> lines = new ArrayList<>();
        boolean both = cell.isPresent() && across > 2 * step;
        if ((both || cell.isEmpty()) && fits(name, along)) {
            lines.add(name);
        }
        cell.map(c -> endOf(c, along)).filter(c -> !c.isEmpty()).ifPresent(lines::add);
        double at = -step * (lines.size() - 1) / 2;
        for (String line : lines) {
            if (across > step) {
                text(out, line, upwards ? x + at : x, upwards ? y : y + at, along, upwards);
            }
            at += step;
        }
    }

    /** A cell's name, its last part, or the end of that; empty when that would be useless. */
    private String endOf(String cell, double along) {
        if (fits(cell, along)) {
            return cell;
        }
        String last = lastPart(cell);
        if (fits(last, along)) {
            return last;
        }
        String end = shortened(last, Surface.Lettering.room(along, letters()));
        return end.length() >= LEAST_LETTERS ? end : "";
    }

    /** Whether a name fits into a length, in slightly smaller letters if necessary. */
    private boolean fits(String name, double along) {
        return Surface.Lettering.width(name, SMALLER * letters()) <= along;
    }

    private static String lastPart(String name) {
        return name.substring(name.lastIndexOf('/') + 1);
    }

    private void text(Surface out, String text, double x, double y, double along, boolean upwards) {
        double size = letters();
        double wide = Surface.Lettering.width(text, size);
        double fitting = wide <= along ? size : Math.max(SMALLER * size, size * along / wide);
        out.text(
                text,
                x,
                y,
                new Surface.Lettering(
                        fitting, Surface.Align.CENTER, colors.ink(), upwards ? UPWARDS : 0));
    }

    private double letters() {
        return scene.letters(fontSize(scene.scale()));
    }

    /** Shortens a hierarchical name to its last part, which says most, or to the end of that. */
    static String shortened(String name, int room) {
        if (name.length() <= room) {
            return name;
        }
        String last = lastPart(name);
        if (last.length() <= room) {
            return last;
        }
        return room < 2 ? "" : "…" + name.substring(name.length() - room + 1);
    }

    /** Usual size of letters on the map, pixels. */
    static double fontSize(double scale) {
        return Math.min(13, Math.max(10, scale / 26));
    }
}
