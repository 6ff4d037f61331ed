package padward.ui.scene;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import javafx.beans.InvalidationListener;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;

/** What the map shows, as one observable object: its layers and the width of delay bands. */
public final class MapOptions {
    private final Map<MapLayer, BooleanProperty> layers = new EnumMap<>(MapLayer.class);
    private final ObjectProperty<DelayBandWidth> bandWidth =
            new SimpleObjectProperty<>(DelayBandWidth.AUTOMATIC);

    /** Starts with the default layers and an automatic band width. */
    public MapOptions() {
        Set<MapLayer> first = MapLayer.shownFirst();
        for (MapLayer layer : MapLayer.values()) {
            layers.put(layer, new SimpleBooleanProperty(first.contains(layer)));
        }
    }

    /** Whether a layer is shown. */
    public BooleanProperty shown(MapLayer layer) {
        return layers.get(layer);
    }

    /** Shows a hidden layer, hides a shown one. */
    public void toggle(MapLayer layer) {
        BooleanProperty shown = shown(layer);
        shown.set(!shown.get());
    }

    /** The layers that are shown. */
    public Set<MapLayer> shownLayers() {
        Set<MapLayer> result = EnumSet.noneOf(MapLayer.class);
        layers.forEach(
                (layer, shown) -> {
                    if (shown.get()) {
                        result.add(layer);
                    }
                });
        return result;
    }

    /** Delay that one band covers. */
    public ObjectProperty<DelayBandWidth> bandWidthProperty() {
        return bandWidth;
    }

    /** Calls a listener whenever anything here changes. */
    public void addListener(InvalidationListener listener) {
        layers.values().forEach(p -> p.addListener(listener));
        bandWidth.addListener(listener);
    }
}
