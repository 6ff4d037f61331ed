package padward.ui;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.DoubleExpression;
import javafx.scene.Node;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.input.DragEvent;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import padward.ui.control.Action;
import padward.ui.control.Actions;
import padward.ui.control.Focus;
import padward.ui.control.Panel;
import padward.ui.map.MapModel;
import padward.ui.model.AppearanceModel;
import padward.ui.question.RoutesOutView;
import padward.ui.question.UnblockView;
import padward.ui.question.WhatIfBar;

/**
 * Next to the map: the panels as tabs, and below them what has to be decided, the options to
 * unblock or a what-if. Below, so that the rows of a list stay under the pointer.
 */
final class SidePane extends VBox {
    /** Height of the names of the panels alone, and with the filter of a list, at default text. */
    private static final double NAMES = 36;

    private static final double WITH_FILTER = 150;

    /** Height in which a what-if can be decided, at the default text size. */
    private static final double DECISION = 170;

    private static final double OPTIONS_SHARE = 0.5;

    /** Height below which lists and options have no room for both, at the default text size. */
    private static final double TIGHT = 400;

    private final List<Panel> panels;
    private final AppearanceModel look;
    private final DoubleExpression tight;
    private final TabPane tabs = new TabPane();

    SidePane(MapModel map, List<Panel> panels, Actions actions) {
        this.panels = List.copyOf(panels);
        this.look = map.explorer().look();
        this.tight = look.sized(TIGHT);
        setId("side");
        getStyleClass().add("side");
        setMinWidth(220);
        // The heights inside follow its own; without this, it could never become lower.
        setMinHeight(0);
        tabs.setId("panels");
        tabs.setAccessibleText("Lists and lessons");
        tabs.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
        DoubleExpression least = leastTabs();
        tabs.minHeightProperty().bind(least);
        panels.forEach(p -> tabs.getTabs().add(tab(p)));
        tabs.addEventFilter(DragEvent.DRAG_OVER, this::openUnderPointer);
        UnblockView options = new UnblockView(map);
        heightProperty().addListener(p -> options.setTight(isTight()));
        tight.addListener(p -> options.setTight(isTight()));
        options.maxHeightProperty().bind(heightProperty().multiply(OPTIONS_SHARE));
        // They get all height that the options leave; their tables would ask for more.
        tabs.setPrefHeight(NAMES);
        VBox.setVgrow(tabs, Priority.ALWAYS);
        WhatIfBar whatIf = new WhatIfBar(map.explorer(), actions);
        whatIf.maxHeightProperty().bind(heightProperty().subtract(least));
        getChildren().addAll(tabs, options, whatIf);
        // What has to be decided must be seen.
        map.explorer()
                .shown()
                .whatIfProperty()
                .addListener(
                        (p, old, now) ->
                                look.listsProperty()
                                        .set(look.listsProperty().get() || now.isPresent()));
    }

    /**
     * The least height of the panels: with the filter of a list where a what-if leaves that room,
     * otherwise only their names, so that nothing is seen by half.
     */
    private DoubleExpression leastTabs() {
        DoubleExpression lists = look.sized(WITH_FILTER);
        DoubleExpression decision = look.sized(DECISION);
        DoubleExpression names = look.sized(NAMES);
        return Bindings.createDoubleBinding(
                () -> {
                    boolean room = getHeight() - lists.get() >= decision.get();
                    return room ? lists.get() : names.get();
                },
                heightProperty(),
                lists,
                decision,
                names);
    }

    private boolean isTight() {
        return getHeight() > 0 && getHeight() < tight.get();
    }

    /** What is dragged over the name of a tab can be dropped on its view. */
    private void openUnderPointer(DragEvent event) {
        Node node = event.getPickResult().getIntersectedNode();
        while (node != null && node != tabs && !node.getStyleClass().contains("tab")) {
            node = node.getParent();
        }
        if (node != null && node != tabs) {
            String id = node.getId();
            tabs.getTabs().stream()
                    .filter(t -> t.getId().equals(id))
                    .forEach(t -> tabs.getSelectionModel().select(t));
        }
    }

    private static Tab tab(Panel panel) {
        Tab tab = new Tab(panel.title());
        tab.setId(panel.id() + "-tab");
        tab.setTooltip(new Tooltip(panel.purpose()));
        tab.selectedProperty().addListener((p, old, now) -> fill(tab, panel, now));
        fill(tab, panel, tab.isSelected());
        return tab;
    }

    private static void fill(Tab tab, Panel panel, boolean selected) {
        if (selected && tab.getContent() == null) {
            tab.setContent(panel.view().get());
        }
    }

    /** An action for each panel that shows it. */
    List<Action> actions() {
        List<Action> actions = new ArrayList<>();
        for (int i = 0; i < panels.size(); i++) {
            Panel panel = panels.get(i);
            int index = i;
            actions.add(
                    Action.of(
                            "show-" + panel.id(),
                            Action.Group.VIEW,
                            panel.title(),
                            "Shortcut+Digit" + (i + 1),
                            panel.purpose(),
                            () -> show(index)));
        }
        return actions;
    }

    private void show(int index) {
        look.listsProperty().set(true);
        tabs.getSelectionModel().select(index);
        Node content = tabs.getSelectionModel().getSelectedItem().getContent();
        // A list with rows is what is wanted, not the filter above it.
        Optional<TableView<?>> pads = index == 0 ? pads() : Optional.empty();
        if (pads.filter(t -> !t.getItems().isEmpty()).isPresent()) {
            focusPads(pads.get());
        } else {
            Focus.first(content).ifPresent(Node::requestFocus);
        }
    }

    /** Shows the pads for the net, with the first selected if none is. */
    void showPads() {
        show(0);
        if (tabs.getTabs().get(0).getContent() instanceof RoutesOutView routes) {
            routes.endComparison();
        }
        pads().ifPresent(SidePane::focusPads);
    }

    /** The list of pads; empty while something else is in its place. */
    private Optional<TableView<?>> pads() {
        return Optional.ofNullable((TableView<?>) tabs.lookup("#routes-table"));
    }

    private static void focusPads(TableView<?> pads) {
        if (pads.getSelectionModel().isEmpty()) {
            pads.getSelectionModel().selectFirst();
        }
        pads.requestFocus();
    }
}
