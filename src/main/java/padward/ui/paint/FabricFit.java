package padward.ui.paint;

import java.util.Comparator;
import java.util.Optional;
import java.util.stream.Stream;
import javafx.geometry.Insets;
import padward.ui.draw.SvgSurface;
import padward.ui.draw.Viewport;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapScene;
import padward.ui.scene.WorldRectangle;

/**
 * Fits a whole fabric into the map, so that neither pads nor the names of banks are under the
 * legend or the numbers of rows and columns.
 */
public final class FabricFit {
    private static final double APART = 12;

    private final MapScene scene;
    private final WorldRectangle all;
    private final double nearest;

    /** Only counted and measured: nothing is painted there. */
    private final SvgSurface nowhere = new SvgSurface(1, 1, "");

    /** The room that the names of banks need. */
    private final Insets names;

    /** The room that they, the numbers and what is told above need. */
    private final Insets around;

    private FabricFit(MapScene scene, WorldRectangle all, double nearest) {
        this.scene = scene;
        this.all = all;
        this.nearest = nearest;
        StructurePainter structure =
                new StructurePainter(scene.seenIn(all.in(scene.view(), nearest)), nowhere);
        boolean large = structure.isWanted();
        this.names = large ? structure.roomForNames() : Insets.EMPTY;
        double ruler = scene.shows(MapLayer.RULERS) ? RulerPainter.breadth(scene) : 0;
        this.around =
                new Insets(
                        large ? names.getTop() : WorldRectangle.roomAbove(scene.view()),
                        names.getRight() + RulerPainter.WIDER * ruler,
                        names.getBottom() + ruler,
                        names.getLeft());
    }

    /**
     * A view of all of it.
     *
     * @param scene what the map shows, in any view of the size of the map
     * @param all the fabric
     * @param nearest greatest scale, pixels per tile
     */
    public static Viewport in(MapScene scene, WorldRectangle all, double nearest) {
        return new FabricFit(scene, all, nearest).view();
    }

    private Viewport view() {
        Viewport alone = with(0, 0, 0);
        Optional<LegendPainter.Place> legend = legend(alone);
        if (legend.isEmpty() || isClear(legend.get(), alone)) {
            return alone;
        }
        return beside(legend.get())
                // Of another scale, the legend may have other rows.
                .flatMap(view -> Stream.concat(Stream.of(view), beside(legend(view).orElseThrow())))
                .filter(view -> isClear(legend(view).orElseThrow(), view))
                .max(Comparator.comparingDouble(Viewport::scale))
                .orElse(alone);
    }

    /** Views with room for the legend to the left, to the right or below. */
    private Stream<Viewport> beside(LegendPainter.Place legend) {
        double wide = LegendPainter.GAP + legend.width() + APART;
        double high = scene.view().height() - legend.top() + APART;
        return Stream.of(with(wide, 0, 0), with(0, wide, 0), with(0, 0, high));
    }

    private Viewport with(double left, double right, double below) {
        return all.in(
                scene.view(),
                nearest,
                new Insets(
                        around.getTop(),
                        around.getRight() + right,
                        around.getBottom() + below,
                        around.getLeft() + left));
    }

    private Optional<LegendPainter.Place> legend(Viewport view) {
        return new LegendPainter(scene.seenIn(view), nowhere).findPlace();
    }

    /** Whether the legend covers neither the fabric nor the names of its banks. */
    private boolean isClear(LegendPainter.Place legend, Viewport view) {
        return legend.left() + legend.width() <= view.screenX(all.x0()) - names.getLeft()
                || legend.left() >= view.screenX(all.x1()) + names.getRight()
                || legend.top() >= view.screenY(all.y0()) + names.getBottom();
    }
}
