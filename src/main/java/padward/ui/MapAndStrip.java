package padward.ui;

import javafx.scene.layout.Region;
import padward.ui.map.MapView;
import padward.ui.map.StripMapView;

/**
 * The map with its buttons above it and the strip map under it. When height is short, the strip map
 * shrinks before the map does.
 */
final class MapAndStrip extends Region {
    /** Height up to which the map is served first, pixels. */
    private static final double COMFORT = 240;

    private final MapView map;
    private final StripMapView strip;
    private final Region bar;

    MapAndStrip(MapView map, StripMapView strip) {
        this.map = map;
        this.strip = strip;
        setMinWidth(map.minWidth(-1));
        this.bar = map.bar();
        getChildren().addAll(bar, map, strip);
    }

    @Override
    protected double computeMinHeight(double width) {
        return bar.prefHeight(width) + map.minHeight(width) + strip.minHeight(width);
    }

    @Override
    protected double computePrefHeight(double width) {
        return COMFORT + strip.prefHeight(width);
    }

    @Override
    protected void layoutChildren() {
        double low = strip.minHeight(getWidth());
        double high = Math.max(low, strip.prefHeight(getWidth()));
        double top = Math.ceil(bar.prefHeight(getWidth()));
        double below = Math.floor(Math.max(low, Math.min(high, getHeight() - top - COMFORT)));
        double above = Math.max(0, getHeight() - below);
        bar.resizeRelocate(0, 0, getWidth(), top);
        map.resizeRelocate(0, top, getWidth(), Math.max(0, above - top));
        strip.resizeRelocate(0, above, getWidth(), below);
    }
}
