package padward.ui.nets;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import javafx.application.Platform;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.MenuItem;
import javafx.scene.control.TextField;
import javafx.scene.control.TreeItem;
import javafx.scene.control.TreeTableColumn;
import javafx.scene.control.TreeTableRow;
import javafx.scene.control.TreeTableView;
import javafx.scene.input.ClipboardContent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.TransferMode;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import padward.breakout.ask.Answer;
import padward.breakout.survey.NetObservability;
import padward.breakout.text.AnswerText;
import padward.ui.control.LeadingNumberOrder;
import padward.ui.control.TableHabits;
import padward.ui.control.ThingMenu;
import padward.ui.model.AppearanceModel;
import padward.ui.model.NamedThing;
import padward.ui.model.WindowModel;

/** All nets by hierarchy; Enter or a double click asks for one. */
public final class NetsView extends VBox {
    private static final double ROW = 25;
    private static final int OPENED_WHEN_FEWER = 60;

    private final WindowModel model;
    private final NetsModel nets;
    private final Label count = new Label();
    private TreeTableColumn<NetRow, String> routeOut = new TreeTableColumn<>();
    private final AppearanceModel look;
    private final TreeTableView<NetRow> table = new TreeTableView<>();
    private final List<TreeTableRow<NetRow>> rows = new ArrayList<>();
    private final Label empty = new Label();
    private boolean reporting;

    /** The nets of the open design. */
    public NetsView(WindowModel model) {
        this.model = model;
        this.nets = new NetsModel(model);
        this.look = model.look();
        setId("nets");
        setSpacing(6);
        setPadding(new Insets(10, 12, 10, 12));
        TextField filter = new TextField();
        filter.setId("nets-filter");
        filter.setPromptText("part of a name, or * and ?");
        filter.setAccessibleText("Which nets are listed");
        filter.textProperty().bindBidirectional(nets.textProperty());
        CheckBox expression = new CheckBox("regular expression");
        expression.setId("nets-expression");
        expression.setMinWidth(USE_PREF_SIZE);
        expression.selectedProperty().bindBidirectional(nets.expressionProperty());
        HBox.setHgrow(filter, Priority.ALWAYS);
        HBox head = new HBox(8, filter, expression);
        head.setAlignment(Pos.CENTER_LEFT);
        buildTable();
        VBox.setVgrow(table, Priority.ALWAYS);
        count.setId("nets-count");
        count.getStyleClass().add("faint");
        getChildren().addAll(count, head, table);
        nets.treeProperty().addListener((p, old, now) -> show(now));
        nets.faultProperty().addListener((p, old, now) -> show(nets.treeProperty().get()));
        nets.knownProperty().addListener((p, old, now) -> table.refresh());
        model.shown().scopeProperty().addListener((p, old, now) -> showScope());
        showScope();
        show(nets.treeProperty().get());
    }

    private void buildTable() {
        table.setId("nets-table");
        table.setAccessibleText("Nets. Enter asks for one.");
        table.setShowRoot(false);
        table.fixedCellSizeProperty().bind(look.sized(ROW));
        empty.setWrapText(true);
        table.setPlaceholder(empty);
        TableHabits.keepVisible(column("net", 130, "Name of the net, part by part", NetRow::label));
        routeOut =
                column(
                        "route out",
                        104,
                        "On how many pads it can be brought out; or, if a pad was asked for alone,"
                                + " whether it reaches that pad",
                        this::routeOut);
        number(
                "fan-out",
                66,
                "Number of its sinks",
                r -> r.isGroup() ? "" : String.valueOf(r.fanOut()));
        number(
                "wires",
                52,
                "Number of wires that it uses",
                r -> r.isGroup() ? "" : String.valueOf(r.length()));
        number(
                "latest, ns",
                94,
                "Delay to its latest sink, at the fast and the slow corner",
                r -> r.latest().replace(" ns", ""));
        column("remark", 70, "A clock, or how many nets a group has", NetRow::remark);
        table.setRowFactory(t -> row());
        table.setOnKeyPressed(
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        ask();
                        e.consume();
                    }
                });
        table.setOnMouseClicked(
                e -> {
                    if (e.getClickCount() == 2) {
                        ask();
                    }
                });
        TableHabits.install(table, look, this::menu);
    }

    private List<MenuItem> menu() {
        List<String> names = chosen();
        if (names.isEmpty()) {
            return List.of();
        }
        List<MenuItem> items = new ArrayList<>();
        items.add(ThingMenu.item("Ask for this net", this::ask));
        if (names.size() == 1) {
            items.addAll(ThingMenu.items(model, new NamedThing(NamedThing.Kind.NET, names.get(0))));
        } else {
            items.add(
                    ThingMenu.item(
                            "Add these " + names.size() + " nets to the group",
                            () -> model.addToGroup(names)));
        }
        return items;
    }

    /** The names of the selected nets; a group of the hierarchy stands for all of its nets. */
    private List<String> chosen() {
        List<String> names = new ArrayList<>();
        table.getSelectionModel().getSelectedItems().forEach(i -> collect(i, names));
        return names.stream().distinct().toList();
    }

    private static void collect(TreeItem<NetRow> item, List<String> names) {
        if (item == null) {
            return;
        }
        if (!item.getValue().isGroup()) {
            names.add(item.getValue().name());
        }
        item.getChildren().forEach(c -> collect(c, names));
    }

    /** Which pad the nets are listed for, when one was asked for alone. */
    private void showScope() {
        routeOut.setText(nets.findPad().isPresent() ? "to the pad" : "route out");
        showCount();
        reportVisible();
    }

    private void showCount() {
        Optional<NetTree> tree = nets.treeProperty().get();
        int all = model.openedProperty().get().map(o -> o.design().nets().size()).orElse(0);
        int shown = tree.map(t -> t.row().fanOut()).orElse(0);
        String counted = shown == all ? shown + " nets" : shown + " of " + all + " nets";
        String pad =
                nets.findPad()
                        .flatMap(
                                p ->
                                        model.openedProperty()
                                                .get()
                                                .map(o -> o.design().fabric().pads().get(p).name()))
                        .map(p -> ", which of them reach pad " + p)
                        .orElse("");
        count.setText(tree.isEmpty() ? "" : counted + pad);
    }

    private TreeTableRow<NetRow> row() {
        TreeTableRow<NetRow> row = new TreeTableRow<>();
        rows.add(row);
        row.itemProperty().addListener((p, old, now) -> reportVisible());
        row.setOnDragDetected(
                e -> {
                    if (!row.isEmpty()) {
                        ClipboardContent text = new ClipboardContent();
                        text.putString(String.join(", ", names(row.getTreeItem())));
                        row.startDragAndDrop(TransferMode.COPY).setContent(text);
                        e.consume();
                    }
                });
        return row;
    }

    /** The net of a row, or all nets of a group. */
    private static List<String> names(TreeItem<NetRow> item) {
        return item.getValue().isGroup()
                ? item.getChildren().stream().flatMap(c -> names(c).stream()).toList()
                : List.of(item.getValue().name());
    }

    /** Reports the visible nets to the model, once, after the table has been laid out. */
    private void reportVisible() {
        if (reporting) {
            return;
        }
        reporting = true;
        Platform.runLater(
                () -> {
                    reporting = false;
                    nets.see(
                            rows.stream()
                                    .filter(r -> r.getParent() != null && !r.isEmpty())
                                    .map(TreeTableRow::getItem)
                                    .filter(n -> n != null && !n.isGroup())
                                    .map(NetRow::name)
                                    .distinct()
                                    .toList());
                });
    }

    private String routeOut(NetRow row) {
        if (!row.isGroup() && nets.findPad().isPresent()) {
            return nets.findToPad(row.name()).map(a -> AnswerText.word(a) + delay(a)).orElse("…");
        }
        return row.isGroup()
                ? ""
                : nets.findObservability(row.name())
                        .map(NetObservability::toText)
                        .orElse(row.leadsOut() ? "…" : "no route out");
    }

    private void number(String title, double width, String meaning, Function<NetRow, String> text) {
        TreeTableColumn<NetRow, String> column = column(title, width, meaning, text);
        column.getStyleClass().add("number");
        column.setComparator(LeadingNumberOrder.ORDER);
    }

    private TreeTableColumn<NetRow, String> column(
            String title, double width, String meaning, Function<NetRow, String> text) {
        TreeTableColumn<NetRow, String> column = new TreeTableColumn<>(title);
        TableHabits.tip(column, meaning);
        TableHabits.tellTexts(column);
        column.setCellValueFactory(
                c -> new ReadOnlyStringWrapper(text.apply(c.getValue().getValue())));
        column.prefWidthProperty().bind(look.sized(width));
        table.getColumns().add(column);
        return column;
    }

    private static String delay(Answer answer) {
        return answer.findRoute().map(r -> ", " + r.total().toText()).orElse("");
    }

    private void ask() {
        TreeItem<NetRow> chosen = table.getSelectionModel().getSelectedItem();
        if (chosen != null) {
            nets.ask(chosen.getValue());
        }
    }

    private void show(Optional<NetTree> tree) {
        showCount();
        if (tree.isEmpty()) {
            String fault = nets.faultProperty().get();
            String none = nets.isOpen() ? "Listing the nets …" : "Open a design to see its nets.";
            empty.setText(fault.isEmpty() ? none : fault);
            table.setRoot(null);
            return;
        }
        empty.setText("No nets match. Try a shorter part of the name.");
        TreeItem<NetRow> root = item(tree.get());
        root.setExpanded(true);
        if (tree.get().row().fanOut() < OPENED_WHEN_FEWER) {
            expand(root);
        }
        table.setRoot(root);
        reportVisible();
    }

    private static void expand(TreeItem<NetRow> item) {
        item.setExpanded(true);
        item.getChildren().forEach(NetsView::expand);
    }

    private static TreeItem<NetRow> item(NetTree tree) {
        TreeItem<NetRow> item = new TreeItem<>(tree.row());
        tree.children().forEach(c -> item.getChildren().add(item(c)));
        return item;
    }
}
