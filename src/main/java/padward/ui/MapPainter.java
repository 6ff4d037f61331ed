package padward.ui;

import java.util.Optional;
import javafx.geometry.VPos;
import javafx.scene.canvas.GraphicsContext;
import javafx.scene.paint.Color;
import javafx.scene.text.Font;
import javafx.scene.text.TextAlignment;
import padward.design.Cell;
import padward.design.Occupancy;
import padward.fabric.Fabric;
import padward.fabric.Pad;
import padward.fabric.SiteView;
import padward.fabric.VertexKind;

/**
 * Paints the fabric: tiles and how full they are from afar, boxes, sites and pads nearer, wires and
 * pins nearest. Only tiles that can be seen are visited.
 */
final class MapPainter {
    /** From this scale on, boxes, sites and pads are drawn, pixels a tile. */
    static final double PARTS = 26;

    /** From this scale on, they are drawn with rounded corners and spokes. */
    static final double FINE_PARTS = 90;

    /** From this scale on, single wires are drawn. */
    static final double WIRES = 70;

    /** From this scale on, names are drawn. */
    static final double NAMES = 190;

    private static final Color CLEAR = Color.TRANSPARENT;

    private final Opened opened;
    private final Fabric fabric;
    private final Viewport view;
    private final Palette palette;
    private final GraphicsContext g;

    private final Ground ground;
    private final Raster raster;

    /**
     * @param ground all tiles from afar, in the palette's colours
     * @param raster for wires, of the view's size
     */
    MapPainter(
            Opened opened,
            Viewport view,
            Palette palette,
            GraphicsContext g,
            Ground ground,
            Raster raster) {
        this.ground = ground;
        this.raster = raster;
        this.opened = opened;
        this.fabric = opened.design().fabric();
        this.view = view;
        this.palette = palette;
        this.g = g;
    }

    void paint() {
        g.setFill(palette.paper());
        g.fillRect(0, 0, view.width(), view.height());
        int x0 = clamp((int) Math.floor(view.worldX(0)) - 1, fabric.columns());
        int x1 = clamp((int) Math.floor(view.worldX(view.width())) + 1, fabric.columns());
        int y0 = clamp((int) Math.floor(view.worldY(view.height())) - 1, fabric.rows());
        int y1 = clamp((int) Math.floor(view.worldY(0)) + 1, fabric.rows());
        if (view.scale() < PARTS) {
            paintAllGround();
        } else {
            forTiles(x0, x1, y0, y1, this::paintGround);
        }
        paintRaster(x0, x1, y0, y1);
        if (view.scale() >= FINE_PARTS) {
            forTiles(x0, x1, y0, y1, this::paintBox);
            forTiles(x0, x1, y0, y1, this::paintSites);
        }
        paintPads(x0, x1, y0, y1);
    }

    /** What is many and small goes into one picture, drawn once: the canvas keeps no copy of it. */
    private void paintRaster(int x0, int x1, int y0, int y1) {
        if (view.scale() < PARTS) {
            return;
        }
        raster.clear();
        if (view.scale() >= WIRES) {
            paintWires(x0, x1, y0, y1);
        }
        if (view.scale() < FINE_PARTS) {
            forTiles(x0, x1, y0, y1, this::paintSmallParts);
        }
        g.drawImage(raster.image(), 0, 0);
    }

    private interface TileJob {
        void paint(int tile);
    }

    private void forTiles(int x0, int x1, int y0, int y1, TileJob job) {
        for (int y = y0; y <= y1; y++) {
            for (int x = x0; x <= x1; x++) {
                job.paint(y * fabric.columns() + x);
            }
        }
    }

    private static int clamp(int value, int size) {
        return Math.max(0, Math.min(size - 1, value));
    }

    private void paintAllGround() {
        g.setImageSmoothing(false);
        g.drawImage(
                ground.image(),
                view.screenX(0),
                view.screenY(fabric.rows()),
                fabric.columns() * view.scale(),
                fabric.rows() * view.scale());
    }

    private void paintGround(int tile) {
        double gap = 1;
        double x = view.screenX(fabric.column(tile));
        double y = view.screenY(fabric.row(tile) + 1.0);
        Color color = opened.layout().isRim(tile) ? palette.rim() : palette.tile();
        double fill = view.scale() >= WIRES ? 0 : opened.index().fill(tile);
        g.setFill(color.interpolate(palette.heldStrong(), Math.min(1, fill * 1.4)));
        g.fillRect(x, y, view.scale() - gap, view.scale() - gap);
        if (view.scale() >= NAMES) {
            text(
                    fabric.tileName(tile) + " " + fabric.tileType(tile),
                    x + 6,
                    y + 12,
                    TextAlignment.LEFT,
                    palette.faint());
        }
    }

    /** Long wires come from tiles that cannot be seen. Free ones first, held ones over them. */
    private void paintWires(int x0, int x1, int y0, int y1) {
        int reach = opened.index().reach();
        int left = clamp(x0 - reach, fabric.columns());
        int right = clamp(x1 + reach, fabric.columns());
        int bottom = clamp(y0 - reach, fabric.rows());
        int top = clamp(y1 + reach, fabric.rows());
        int free = Raster.pixel(palette.tile().interpolate(palette.box(), 0.45));
        int held = Raster.pixel(palette.heldStrong());
        forTiles(left, right, bottom, top, tile -> paintWires(tile, false, free));
        forTiles(left, right, bottom, top, tile -> paintWires(tile, true, held));
    }

    private void paintWires(int tile, boolean heldOnes, int pixel) {
        Occupancy occupancy = opened.design().occupancy();
        for (int i = opened.index().first(tile); i < opened.index().first(tile + 1); i++) {
            int vertex = opened.index().vertex(i);
            boolean wanted =
                    occupancy.isOccupied(vertex) == heldOnes
                            && fabric.kind(vertex) == VertexKind.WIRE;
            if (wanted) {
                TileLayout.Point from = opened.layout().start(vertex);
                TileLayout.Point to = opened.layout().end(vertex);
                raster.line(
                        view.screenX(from.x()),
                        view.screenY(from.y()),
                        view.screenX(to.x()),
                        view.screenY(to.y()),
                        heldOnes ? 2 : 1,
                        pixel);
            }
        }
    }

    /** Boxes and sites as pixels, where there are many and each is small. */
    private void paintSmallParts(int tile) {
        int rim = Raster.pixel(palette.box());
        TileLayout.Point box = opened.layout().box(tile);
        raster.disc(
                view.screenX(box.x()),
                view.screenY(box.y()),
                TileLayout.BOX_RADIUS * view.scale(),
                Raster.pixel(palette.tile()),
                rim);
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            TileLayout.Box place = opened.layout().site(site);
            boolean held = opened.design().occupancy().findCellOn(site).isPresent();
            raster.box(
                    view.screenX(place.x()),
                    view.screenY(place.y() + place.height()),
                    place.width() * view.scale(),
                    place.height() * view.scale(),
                    Raster.pixel(held ? palette.held() : palette.site()),
                    rim);
        }
    }

    private void paintBox(int tile) {
        TileLayout.Point box = opened.layout().box(tile);
        double r = TileLayout.BOX_RADIUS * view.scale();
        double x = view.screenX(box.x());
        double y = view.screenY(box.y());
        g.setFill(palette.tile());
        g.fillOval(x - r, y - r, 2 * r, 2 * r);
        g.setStroke(palette.box());
        g.setLineWidth(1);
        g.strokeOval(x - r, y - r, 2 * r, 2 * r);
        if (r > 6) {
            for (int spoke = 0; spoke < 8; spoke++) {
                double angle = Math.PI * spoke / 4 + Math.PI / 8;
                g.strokeLine(
                        x + 0.7 * r * Math.cos(angle),
                        y + 0.7 * r * Math.sin(angle),
                        x + r * Math.cos(angle),
                        y + r * Math.sin(angle));
            }
        }
    }

    private void paintSites(int tile) {
        for (int site = fabric.firstSite(tile); site < fabric.firstSite(tile + 1); site++) {
            paintSite(fabric.site(site));
        }
    }

    private void paintSite(SiteView site) {
        TileLayout.Box box = opened.layout().site(site.id());
        Optional<Cell> cell = opened.design().occupancy().findCellOn(site.id());
        double x = view.screenX(box.x());
        double y = view.screenY(box.y() + box.height());
        double w = box.width() * view.scale();
        double h = box.height() * view.scale();
        double round = Math.min(w, h) * 0.4;
        g.setFill(cell.isPresent() ? palette.held() : palette.site());
        g.fillRoundRect(x, y, w, h, round, round);
        g.setStroke(palette.box());
        g.setLineWidth(1);
        g.strokeRoundRect(x, y, w, h, round, round);
        if (view.scale() >= NAMES) {
            for (int pin = 0; pin < site.pins().size(); pin++) {
                TileLayout.Point at = opened.layout().end(site.firstPin() + pin);
                g.setFill(palette.ink());
                g.fillRect(view.screenX(at.x()) - 1.5, view.screenY(at.y()) - 1.5, 3, 3);
            }
            String name = site.name().substring(site.name().indexOf('/') + 1);
            label(name, cell.map(Cell::name), x, y, w, h);
        }
    }

    /** The site's name, and the cell's under it, as far as there is room. */
    private void label(String name, Optional<String> cell, double x, double y, double w, double h) {
        double size = fontSize();
        int room = (int) (w / (size * 0.58)) - 1;
        if (room < 3 || h < size * 1.3) {
            return;
        }
        boolean both = cell.isPresent() && h > size * 2.6;
        double middle = y + h / 2;
        text(
                shortened(both || cell.isEmpty() ? name : cell.get(), room),
                x + w / 2,
                both ? middle - size * 0.6 : middle,
                TextAlignment.CENTER,
                palette.ink());
        if (both) {
            text(
                    shortened(cell.get(), room),
                    x + w / 2,
                    middle + size * 0.6,
                    TextAlignment.CENTER,
                    palette.ink());
        }
    }

    /** The end of a hierarchical name tells more than its beginning. */
    static String shortened(String name, int room) {
        return name.length() <= room ? name : "…" + name.substring(name.length() - room + 1);
    }

    private void paintPads(int x0, int x1, int y0, int y1) {
        if (view.scale() < 4) {
            return;
        }
        for (int i = 0; i < fabric.pads().size(); i++) {
            Pad pad = fabric.pads().get(i);
            int x = fabric.column(pad.tile());
            int y = fabric.row(pad.tile());
            if (x >= x0 && x <= x1 && y >= y0 && y <= y1) {
                paintPad(pad, i);
            }
        }
    }

    private void paintPad(Pad pad, int index) {
        TileLayout.Box box = opened.layout().pad(index);
        double x = view.screenX(box.x());
        double y = view.screenY(box.y() + box.height());
        double w = box.width() * view.scale();
        double h = box.height() * view.scale();
        double round = Math.min(w, h);
        boolean held = opened.design().occupancy().isOccupied(pad.vertex());
        g.setFill(held ? palette.held() : palette.site());
        g.fillRoundRect(x, y, w, h, round, round);
        g.setStroke(view.scale() >= PARTS ? palette.ink() : CLEAR);
        g.setLineWidth(1);
        g.strokeRoundRect(x, y, w, h, round, round);
        if (round > 13) {
            String name = pad.packagePin().isEmpty() ? "pad" : pad.packagePin();
            text(name, x + w / 2, y + h / 2, TextAlignment.CENTER, palette.ink());
        }
    }

    private double fontSize() {
        return Math.min(13, Math.max(10, view.scale() / 26));
    }

    private void text(String text, double x, double y, TextAlignment align, Color color) {
        g.setFont(Font.font(fontSize()));
        g.setTextAlign(align);
        g.setTextBaseline(VPos.CENTER);
        g.setFill(color);
        g.fillText(text, x, y);
    }
}
