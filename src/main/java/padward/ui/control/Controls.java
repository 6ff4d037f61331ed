package padward.ui.control;

import java.util.EnumMap;
import java.util.Map;
import java.util.regex.Pattern;
import javafx.beans.binding.Bindings;
import javafx.beans.property.Property;
import javafx.beans.value.ObservableBooleanValue;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.CheckMenuItem;
import javafx.scene.control.Label;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuBar;
import javafx.scene.control.MenuItem;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.Region;

/** Makes controls: for actions, and plain ones that several views use. */
public final class Controls {
    /** A blank between a number and its unit. */
    private static final Pattern BEFORE_UNIT = Pattern.compile("(?<=\\d) (?=(?:ns|ps|V|mA)\\b)");

    private Controls() {}

    /** A text to be shown: wrapped, a number keeps its unit in its line. */
    public static String withUnits(String text) {
        return BEFORE_UNIT.matcher(text).replaceAll("\u00a0");
    }

    /** A button that runs an action; its id is the action's id with -button. */
    public static Button button(Action action) {
        Button button = new Button(action.text());
        button.setId(action.id() + "-button");
        button.setTooltip(new Tooltip(action.tip()));
        button.setAccessibleText(action.text());
        button.setAccessibleHelp(action.purpose());
        button.setMinWidth(Region.USE_PREF_SIZE);
        button.setOnAction(e -> action.run());
        button.disableProperty().bind(Bindings.not(action.possible()));
        return button;
    }

    /** The same with a sign instead of the text. */
    public static Button button(Action action, String sign) {
        Button button = button(action);
        button.setText(sign);
        return button;
    }

    /** A label that wraps, with these style classes. */
    public static Label text(String text, String... styles) {
        Label label = new Label(withUnits(text));
        label.setWrapText(true);
        label.setMinHeight(Region.USE_PREF_SIZE);
        label.getStyleClass().addAll(styles);
        return label;
    }

    /**
     * A button that belongs to one view only.
     *
     * @param purpose what it does, one sentence
     */
    public static Button button(String id, String text, String purpose, Runnable work) {
        Button button = new Button(text);
        button.setId(id);
        button.setTooltip(new Tooltip(purpose));
        button.setAccessibleHelp(purpose);
        button.setMinWidth(Region.USE_PREF_SIZE);
        button.setOnAction(e -> work.run());
        return button;
    }

    /** A toggle button that shows a property and changes it. */
    public static ToggleButton toggle(Action action, Property<Boolean> on) {
        ToggleButton button = new ToggleButton(action.text());
        button.setId(action.id() + "-button");
        button.setTooltip(new Tooltip(action.tip()));
        button.setAccessibleHelp(action.purpose());
        button.setMinWidth(Region.USE_PREF_SIZE);
        button.selectedProperty().bindBidirectional(on);
        return button;
    }

    /** A menu for each group of actions, some as submenus. */
    public static MenuBar menus(Actions actions) {
        MenuBar bar = new MenuBar();
        bar.setId("menus");
        bar.setMinWidth(Region.USE_PREF_SIZE);
        Map<Action.Group, Menu> made = new EnumMap<>(Action.Group.class);
        for (Action.Group group : Action.Group.values()) {
            // The first letter of each menu of the bar is its access key.
            Menu menu = new Menu((group.parent().isEmpty() ? "_" : "") + group.title());
            actions.in(group).forEach(a -> menu.getItems().add(item(a)));
            made.put(group, menu);
            group.parent()
                    .ifPresentOrElse(
                            p -> made.get(p).getItems().add(menu), () -> bar.getMenus().add(menu));
        }
        return bar;
    }

    private static MenuItem item(Action action) {
        MenuItem item = action.on().map(Controls::checked).orElseGet(MenuItem::new);
        item.setText(action.text());
        item.setId(action.id() + "-item");
        item.setMnemonicParsing(false);
        if (action.scope() == Action.Scope.WINDOW) {
            // In the menu bar, this also makes the key work.
            action.keys().stream().findFirst().ifPresent(item::setAccelerator);
        } else if (!action.keys().isEmpty()) {
            item.setText(action.text() + " (on the map: " + action.keyText() + ")");
        }
        item.setOnAction(
                e -> {
                    action.run();
                    // The mark shows what is, not that the item was chosen.
                    if (item instanceof CheckMenuItem check) {
                        action.on().ifPresent(on -> check.setSelected(on.get()));
                    }
                });
        item.disableProperty().bind(Bindings.not(action.possible()));
        return item;
    }

    private static MenuItem checked(ObservableBooleanValue on) {
        CheckMenuItem item = new CheckMenuItem();
        item.setSelected(on.get());
        on.addListener((p, old, now) -> item.setSelected(now));
        return item;
    }

    /** Makes the further keys of actions work in a scene; a menu item can have only one. */
    public static void install(Actions actions, Scene scene) {
        for (Action action : actions.all()) {
            if (action.scope() == Action.Scope.WINDOW) {
                action.keys().stream()
                        .skip(1)
                        .forEach(k -> scene.getAccelerators().put(k, action::run));
            }
        }
    }
}
