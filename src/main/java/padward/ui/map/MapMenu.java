package padward.ui.map;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import padward.design.Design;
import padward.ui.control.Actions;
import padward.ui.control.ThingMenu;
import padward.ui.model.NamedThing;
import padward.ui.model.WindowModel;

/** What can be done with a thing on the map or the strip map, and with the map itself. */
final class MapMenu {
    private static final List<String> OF_MAP =
            List.of("whole-fabric", "whole-route", "back", "measure", "layer-legend");

    private final WindowModel model;
    private final ContextMenu menu = new ContextMenu();

    MapMenu(WindowModel model) {
        this.model = model;
        menu.setId("map-menu");
    }

    /** The menu, filled for what was pointed at. */
    ContextMenu menu() {
        return menu;
    }

    /** Fills it for a thing on the map, or an empty place of it. */
    ContextMenu fill(Optional<MapItem> thing, Runnable pin, Actions actions) {
        List<MenuItem> items = new ArrayList<>();
        thing.ifPresent(
                t -> {
                    MenuItem card = ThingMenu.item("Pin " + t.kind() + " " + t.name(), pin);
                    card.setId("menu-pin");
                    items.add(card);
                    items.addAll(named(t.kind(), t.name()));
                    t.net().ifPresent(n -> items.addAll(ofNet(n.name())));
                    items.add(new SeparatorMenuItem());
                });
        OF_MAP.forEach(id -> items.add(ThingMenu.item(actions.get(id))));
        menu.getItems().setAll(items);
        return menu;
    }

    /** Fills it for a hop of the route. */
    ContextMenu fill(String hop, Optional<String> usedBy, String allHops) {
        List<MenuItem> items = new ArrayList<>(named("wire", hop));
        usedBy.ifPresent(n -> items.addAll(ofNet(n)));
        items.add(new SeparatorMenuItem());
        items.add(ThingMenu.item("Copy the names of all hops", () -> ThingMenu.copy(allHops)));
        menu.getItems().setAll(items);
        return menu;
    }

    /** A tile is no named thing, but has a name. */
    private List<MenuItem> named(String kind, String name) {
        return design().flatMap(d -> NamedThing.find(d, kind, name))
                .map(t -> ThingMenu.items(model, t))
                .orElseGet(
                        () -> List.of(ThingMenu.item("Copy the name", () -> ThingMenu.copy(name))));
    }

    private List<MenuItem> ofNet(String net) {
        List<MenuItem> items = new ArrayList<>();
        items.add(new SeparatorMenuItem());
        for (MenuItem item : ThingMenu.items(model, new NamedThing(NamedThing.Kind.NET, net))) {
            item.setText(item.getText() + ": " + net);
            items.add(item);
        }
        return items;
    }

    private Optional<Design> design() {
        return model.openedProperty().get().map(o -> o.design());
    }
}
