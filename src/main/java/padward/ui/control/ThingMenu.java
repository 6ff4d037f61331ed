package padward.ui.control;

import java.util.ArrayList;
import java.util.List;
import javafx.scene.control.MenuItem;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import padward.ui.model.NamedThing;
import padward.ui.model.WindowModel;

/**
 * What can be done with a net, cell, pad, site, wire or tile: the same wherever its name stands.
 */
public final class ThingMenu {
    private ThingMenu() {}

    /** The items for one thing. */
    public static List<MenuItem> items(WindowModel model, NamedThing thing) {
        List<MenuItem> items = new ArrayList<>();
        items.add(item("Show on the map", () -> model.showOnMap(thing.name())));
        switch (thing.kind()) {
            case NET -> {
                items.add(
                        item(
                                "Bring out this net",
                                () -> model.shown().netTextProperty().set(thing.name())));
                items.add(item("Add to the group", () -> model.addToGroup(List.of(thing.name()))));
            }
            case PAD ->
                    items.add(
                            item(
                                    "Use this pad",
                                    () -> model.shown().padTextProperty().set(thing.name())));
            case CELL, SITE, WIRE, TILE -> {}
        }
        items.add(item("Copy the name", () -> copy(thing.name())));
        return items;
    }

    /** A menu item that is never taken for one with an access key. */
    public static MenuItem item(String text, Runnable work) {
        MenuItem item = new MenuItem(text);
        item.setMnemonicParsing(false);
        item.setOnAction(e -> work.run());
        return item;
    }

    /** The item of an action, greyed out while it is not possible. */
    public static MenuItem item(Action action) {
        MenuItem item = item(action.text(), action::run);
        item.setDisable(!action.possible().get());
        return item;
    }

    /** Puts a text on the clipboard. */
    public static void copy(String text) {
        ClipboardContent content = new ClipboardContent();
        content.putString(text);
        Clipboard.getSystemClipboard().setContent(content);
    }
}
