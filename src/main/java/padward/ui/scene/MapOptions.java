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
    private final Map<Layer, BooleanProperty> layers = new EnumMap<>(Layer.class);
    private final ObjectProperty<BandWidth> bandWidth =
            new SimpleObjectProperty<>(BandWidth.AUTOMATIC);

    /** Starts with the default layers and an automatic band width. */
    public MapOptions() {
        Set<Layer> first = Layer.shownFirst();
        for (Layer layer : Layer.values()) {
            layers.put(layer, new SimpleBooleanProperty(first.contains(layer)));
        }
    }

    /** Whether a layer is shown. */
    public BooleanProperty shown(Layer layer) {
        return layers.get(layer);
    }

    /** Shows a hidden layer, hides a shown one. */
    public void toggle(Layer layer) {
        BooleanProperty shown = shown(layer);
        shown.set(!shown.get());
    }

    /** The layers that are shown. */
    public Set<Layer> shownLayers() {
        Set<Layer> result = EnumSet.noneOf(Layer.class);
        layers.forEach(
                (layer, shown) -> {
                    if (shown.get()) {
                        result.add(layer);
                    }
                });
        return result;
    }

    /** Delay that one band covers. */
    public ObjectProperty<BandWidth> bandWidthProperty() {
        return bandWidth;
    }

    /** Calls a listener whenever anything here changes. */
    public void addListener(InvalidationListener listener) {
        layers.values().forEach(p -> p.addListener(listener));
        bandWidth.addListener(listener);
    }
}
