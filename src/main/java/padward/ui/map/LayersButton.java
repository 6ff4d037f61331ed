package padward.ui.map;

import java.util.Locale;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuButton;
import javafx.scene.control.RadioMenuItem;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import padward.ui.scene.DelayBandWidth;
import padward.ui.scene.MapLayer;
import padward.ui.scene.MapOptions;

/** The menu that shows and hides the layers of the map and sets the width of delay bands. */
final class LayersButton extends MenuButton {
    LayersButton(MapOptions options) {
        super("Layers");
        setId("layers-button");
        getStyleClass().add("layers-button");
        setTooltip(
                new Tooltip(
                        "What the map shows; keys 1 to 9, Q and O while the map has the focus"));
        setAccessibleText("Layers of the map");
        for (MapLayer layer : MapLayer.values()) {
            CheckMenuItem item = new CheckMenuItem(layer.label() + "  (" + layer.keyText() + ")");
            item.setId("layer-" + layer.name().toLowerCase(Locale.ROOT));
            item.selectedProperty().bindBidirectional(options.shown(layer));
            getItems().add(item);
        }
        Menu widths = new Menu("Width of delay bands");
        ToggleGroup group = new ToggleGroup();
        for (DelayBandWidth width : DelayBandWidth.values()) {
            RadioMenuItem item = new RadioMenuItem(width.label());
            item.setToggleGroup(group);
            item.setSelected(options.bandWidthProperty().get() == width);
            item.setOnAction(e -> options.bandWidthProperty().set(width));
            options.bandWidthProperty()
                    .addListener((p, old, now) -> item.setSelected(now == width));
            widths.getItems().add(item);
        }
        getItems().add(widths);
    }
}
