package padward.ui;

import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Label;
import javafx.scene.control.MenuBar;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import padward.base.Counts;
import padward.design.Design;
import padward.ui.control.Actions;
import padward.ui.control.Controls;
import padward.ui.design.OpenDesign;
import padward.ui.map.FindField;
import padward.ui.model.WindowModel;

/** Menus, the name of the open design, and the field to find things by name. */
final class TopBar extends HBox {
    TopBar(WindowModel model, Actions actions, FindField find) {
        Label name = new Label();
        name.setId("design-name");
        name.getStyleClass().add("faint");
        name.setMinWidth(Region.USE_PREF_SIZE);
        Label about = new Label();
        about.setId("design-about");
        about.getStyleClass().add("faint");
        about.setMinWidth(0);
        // All of it or nothing: a cut number would mislead.
        about.visibleProperty()
                .bind(
                        Bindings.createBooleanBinding(
                                () -> about.getWidth() >= Math.floor(about.prefWidth(-1)),
                                about.widthProperty(),
                                about.textProperty(),
                                about.fontProperty()));
        model.openedProperty().addListener((p, old, now) -> show(now, name, about));
        show(model.openedProperty().get(), name, about);
        MenuBar menus = Controls.menus(actions);
        menus.getMenus().get(0).getItems().add(1, new RecentMenu(model));
        Region spring = new Region();
        HBox.setHgrow(spring, Priority.ALWAYS);
        setId("top-bar");
        setSpacing(8);
        setAlignment(Pos.CENTER_LEFT);
        setPadding(new Insets(8, 16, 0, 8));
        getChildren()
                .addAll(
                        menus,
                        name,
                        about,
                        spring,
                        find,
                        Controls.toggle(actions.get("side"), model.look().listsProperty()),
                        Controls.toggle(actions.get("dark"), model.look().darkProperty()));
    }

    /** Shows the name always, the rest where there is room. */
    private static void show(Optional<OpenDesign> opened, Label name, Label about) {
        Optional<Design> design = opened.map(OpenDesign::design);
        name.setText(design.map(Design::name).orElse(""));
        about.setText(design.map(TopBar::about).orElse(""));
        Tooltip all = design.map(d -> new Tooltip(d.name() + " " + about(d))).orElse(null);
        name.setTooltip(all);
        about.setTooltip(all);
    }

    private static String about(Design design) {
        return "on "
                + design.fabric().info().name()
                + ", "
                + Counts.text(design.nets().size())
                + " nets";
    }
}
