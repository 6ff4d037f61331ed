package padward.ui.paint;

import java.util.Optional;
import javafx.scene.paint.Color;
import padward.ui.design.OpenDesign;
import padward.ui.draw.Palette;
import padward.ui.draw.Raster;
import padward.ui.draw.TileImage;
import padward.ui.scene.NetReach;

/**
 * The colour of each tile.
 *
 * @param heat whether tiles are darker the fuller they are
 * @param bands delay bands to tint by
 */
public record TileColors(
        OpenDesign opened, Palette palette, boolean heat, Optional<NetReach> bands) {
    private static final double FULL_SHOWS = 1.4;
    private static final double NEAREST_BAND = 0.5;

    /** Whether another object gives the same colours. O(1). */
    public boolean isLike(TileColors other) {
        return opened == other.opened
                && palette == other.palette
                && heat == other.heat
                && bands.orElse(null) == other.bands.orElse(null);
    }

    /** The colours as a picture with one pixel per tile. */
    public TileImage toImage() {
        return new TileImage(opened.design().fabric(), tile -> Raster.pixel(of(tile)));
    }

    /** The colour of one tile. */
    Color of(int tile) {
        Color ground = ground(tile);
        double fill = heat ? opened.fill().of(tile) : 0;
        Color used = ground.interpolate(palette.usedStrong(), Math.min(1, fill * FULL_SHOWS));
        return bands.map(r -> tinted(used, r, tile)).orElse(used);
    }

    private Color tinted(Color used, NetReach reach, int tile) {
        int band = reach.band(tile);
        return band == NetReach.BEYOND
                ? used
                : used.interpolate(
                        palette.delay(), NEAREST_BAND * (1 - (double) band / reach.bandCount()));
    }

    private Color ground(int tile) {
        if (opened.layout().isRim(tile)) {
            return palette.rim();
        }
        int kind = opened.kinds().of(tile);
        return kind == 0 ? palette.tile() : palette.tile().interpolate(palette.kind(), kinds(kind));
    }

    /** The most common kind is plain; others have one of three tints. */
    private static double kinds(int kind) {
        return 0.10 + 0.08 * ((kind - 1) % 3);
    }
}
