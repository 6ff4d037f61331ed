package padward.ui;

import java.util.Optional;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.control.MenuBar;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import padward.design.Design;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.map.FindField;
import padward.ui.model.ExplorerModel;
import padward.ui.scene.Opened;

/** Menus, what is open, and the way around the map. */
final class TopBar extends HBox {
    TopBar(ExplorerModel model, Actions actions, FindField find) {
        Label name = new Label();
        name.setId("design-name");
        name.getStyleClass().add("faint");
        name.setMinWidth(0);
        name.setText(told(model.openedProperty().get()));
        model.openedProperty().addListener((p, old, now) -> name.setText(told(now)));
        MenuBar menus = Controls.menus(actions);
        menus.getMenus().get(0).getItems().add(1, new RecentMenu(model));
        Region spring = new Region();
        HBox.setHgrow(spring, Priority.ALWAYS);
        setSpacing(8);
        setAlignment(Pos.CENTER_LEFT);
        setPadding(new Insets(8, 16, 0, 8));
        getChildren()
                .addAll(
                        menus,
                        name,
                        spring,
                        find,
                        Controls.button(actions.get("back"), "◀"),
                        Controls.button(actions.get("forward"), "▶"),
                        Controls.button(actions.get("whole-fabric")),
                        Controls.button(actions.get("whole-way")),
                        Controls.toggle(actions.get("side"), model.look().listsProperty()),
                        Controls.toggle(actions.get("dark"), model.look().darkProperty()));
    }

    private static String told(Optional<Opened> opened) {
        return opened.map(Opened::design).map(TopBar::told).orElse("");
    }

    private static String told(Design design) {
        return "%s on %s, %,d nets"
                .formatted(design.name(), design.fabric().info().name(), design.nets().size());
    }
}
