package padward.ui.paint;

import java.util.Optional;
import javafx.geometry.Insets;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapScene;
import padward.ui.scene.WorldRectangle;

/**
 * Fits a whole fabric into the map. Of a large one, neither pads nor the names of its banks are
 * under the legend, and all names are on the map.
 */
public final class FabricFit {
    private static final double APART = 12;

    private FabricFit() {}

    /**
     * A view of all of it.
     *
     * @param scene what the map shows, in any view of the size of the map
     * @param all the fabric
     * @param nearest greatest scale, pixels per tile
     */
    public static Viewport in(MapScene scene, WorldRectangle all, double nearest) {
        Viewport plain = all.in(scene.view(), nearest);
        MapScene seen = scene.seenIn(plain);
        // Only counted and measured: nothing is painted there.
        SvgSurface nowhere = new SvgSurface(1, 1, "");
        StructurePainter structure = new StructurePainter(seen, nowhere);
        if (!structure.isWanted()) {
            return plain;
        }
        Insets names = structure.roomForNames();
        Viewport named = within(plain, all, nearest, names);
        Optional<LegendPainter.Place> legend = new LegendPainter(seen, nowhere).findPlace();
        double left = named.screenX(all.x0()) - names.getLeft();
        if (legend.isEmpty() || legend.get().left() + legend.get().width() <= left) {
            return named;
        }
        double wide = legend.get().left() + legend.get().width() + APART;
        double high = plain.height() - legend.get().top() + APART;
        Viewport beside = within(plain, all, nearest, with(names, 0, names.getLeft() + wide));
        Viewport above = within(plain, all, nearest, with(names, high, names.getLeft()));
        return beside.scale() >= above.scale() ? beside : above;
    }

    private static Insets with(Insets names, double moreBelow, double left) {
        return new Insets(names.getTop(), names.getRight(), names.getBottom() + moreBelow, left);
    }

    private static Viewport within(
            Viewport view, WorldRectangle all, double nearest, Insets around) {
        double wide = Math.max(1, view.width() - around.getLeft() - around.getRight());
        double high = Math.max(1, view.height() - around.getTop() - around.getBottom());
        return view.resized(wide, high)
                .fitted(all.x0(), all.y0(), all.x1(), all.y1(), nearest)
                .resized(view.width(), view.height())
                .panned(
                        (around.getLeft() - around.getRight()) / 2,
                        (around.getTop() - around.getBottom()) / 2);
    }
}
