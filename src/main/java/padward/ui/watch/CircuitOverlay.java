package padward.ui.watch;

import java.util.ArrayList;
import java.util.List;
import javafx.geometry.Rectangle2D;
import padward.breakout.ask.Hop;
import padward.change.Edit;
import padward.design.Cell;
import padward.design.Design;
import padward.design.RouteTree;
import padward.fabric.SiteView;
import padward.ui.design.TileLayout;
import padward.ui.draw.Palette;
import padward.ui.draw.Surface;
import padward.ui.draw.Tag;
import padward.ui.scene.MapOverlay;
import padward.ui.scene.MapPen;
import padward.ui.scene.MapScene;
import padward.watch.place.WatchResult;

/**
 * Paints a circuit that waits to be kept over the map: its nets and the routes out thick, the
 * branches of the design's nets dashed, a ring around each of its cells with the cell's name.
 *
 * @param placed the circuit
 */
record CircuitOverlay(WatchResult.Placed placed) implements MapOverlay {
    private static final double LETTERS = 12;
    private static final double CASING = 2.5;
    private static final double THICK = 3;
    private static final double BRANCH = 2.2;
    private static final double RING = 3;
    private static final double LEAST_RING = 10;

    /** More names than this would only cover each other. */
    private static final int MOST_NAMES = 12;

    @Override
    public void paint(MapScene scene, Surface out) {
        Palette colors = scene.palette();
        MapPen pen = new MapPen(scene, out);
        Surface.Line paper = new Surface.Line(colors.paper(), THICK + CASING);
        Surface.Line own = new Surface.Line(colors.route(), THICK);
        Surface.Line branch = new Surface.Line(colors.alternative(), BRANCH, 6, 4);
        trees().forEach(t -> pen.tree(t, paper));
        branches().forEach(b -> pen.route(b, paper));
        outs().forEach(o -> pen.route(o, paper));
        branches().forEach(b -> pen.route(b, branch));
        trees().forEach(t -> pen.tree(t, own));
        outs().forEach(o -> pen.route(o, own));
        List<Rectangle2D> names = new ArrayList<>();
        for (WatchResult.PlacedCell cell : placed.cells()) {
            ring(cell, scene, out, names);
        }
    }

    private List<RouteTree> trees() {
        List<RouteTree> result = new ArrayList<>();
        for (Edit edit : placed.edits()) {
            if (edit instanceof Edit.AddNet net) {
                result.add(net.route());
            } else if (edit instanceof Edit.AddInput input) {
                result.add(input.route());
            }
        }
        return result;
    }

    private List<int[]> branches() {
        return placed.edits().stream()
                .filter(Edit.AddSink.class::isInstance)
                .map(e -> ((Edit.AddSink) e).route().stream().mapToInt(v -> v).toArray())
                .toList();
    }

    private List<int[]> outs() {
        return placed.legs().stream()
                .flatMap(l -> l.answer().findRoute().stream())
                .map(r -> r.hops().stream().mapToInt(Hop::vertex).toArray())
                .toList();
    }

    private void ring(
            WatchResult.PlacedCell placedCell,
            MapScene scene,
            Surface out,
            List<Rectangle2D> names) {
        Design design = placed.design();
        Cell cell = design.findCell(placedCell.cell()).orElseThrow();
        SiteView site = design.fabric().site(cell.site());
        TileLayout.Box box = scene.opened().layout().site(site.id(), site.tile());
        double middleX = scene.view().screenX(box.centreX());
        double middleY = scene.view().screenY(box.centreY());
        double wide = Math.max(LEAST_RING, box.width() * scene.view().scale()) + 2 * RING;
        double high = Math.max(LEAST_RING, box.height() * scene.view().scale()) + 2 * RING;
        double left = middleX - wide / 2;
        double top = middleY - high / 2;
        Palette colors = scene.palette();
        out.outlineRect(left, top, wide, high, 8, new Surface.Line(colors.paper(), 6));
        out.outlineRect(left, top, wide, high, 8, new Surface.Line(colors.route(), THICK));
        String name = cell.name().substring(cell.name().lastIndexOf('/') + 1);
        Tag tag = new Tag(name, scene.letters(LETTERS), colors.route());
        Rectangle2D place =
                new Rectangle2D(
                        middleX - tag.width() / 2,
                        top - tag.height() - 3,
                        tag.width(),
                        tag.height());
        Rectangle2D view = new Rectangle2D(0, 0, scene.view().width(), scene.view().height());
        if (names.size() < MOST_NAMES
                && view.contains(place)
                && names.stream().noneMatch(place::intersects)) {
            names.add(place);
            tag.paint(out, colors, place.getMinX(), place.getMinY());
        }
    }
}
