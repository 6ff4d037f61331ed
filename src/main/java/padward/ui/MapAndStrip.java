package padward.ui;

import javafx.scene.layout.Region;
import padward.ui.map.MapView;
import padward.ui.map.StripMapView;

/**
 * The map with the strip map under it. When height is short, the strip map shrinks before the map
 * does.
 */
final class MapAndStrip extends Region {
    /** Height up to which the map is served first, pixels. */
    private static final double COMFORT = 240;

    private final MapView map;
    private final StripMapView strip;

    MapAndStrip(MapView map, StripMapView strip) {
        this.map = map;
        this.strip = strip;
        setMinWidth(map.minWidth(-1));
        getChildren().addAll(map, strip);
    }

    @Override
    protected double computeMinHeight(double width) {
        return map.minHeight(width) + strip.minHeight(width);
    }

    @Override
    protected double computePrefHeight(double width) {
        return COMFORT + strip.prefHeight(width);
    }

    @Override
    protected void layoutChildren() {
        double low = strip.minHeight(getWidth());
        double high = Math.max(low, strip.prefHeight(getWidth()));
        double below = Math.floor(Math.max(low, Math.min(high, getHeight() - COMFORT)));
        double above = Math.max(0, getHeight() - below);
        map.resizeRelocate(0, 0, getWidth(), above);
        strip.resizeRelocate(0, above, getWidth(), below);
    }
}
