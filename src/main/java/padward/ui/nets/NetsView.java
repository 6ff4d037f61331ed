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
import padward.breakout.survey.NetObservability;
import padward.ui.control.LeadingNumberOrder;
import padward.ui.model.AppearanceModel;
import padward.ui.model.WindowModel;

/** All nets by hierarchy; Enter or a double click puts one into the question. */
public final class NetsView extends VBox {
    private static final double ROW = 25;
    private static final int OPENED_WHEN_FEWER = 60;

    private final NetsModel nets;
    private final AppearanceModel look;
    private final TreeTableView<NetRow> table = new TreeTableView<>();
    private final List<TreeTableRow<NetRow>> rows = new ArrayList<>();
    private final Label empty = new Label();
    private boolean reporting;

    /** The nets of the open design. */
    public NetsView(WindowModel model) {
        this.nets = new NetsModel(model);
        this.look = model.look();
        setId("nets");
        setSpacing(6);
        setPadding(new Insets(10, 12, 10, 12));
        TextField filter = new TextField();
        filter.setId("nets-filter");
        filter.setPromptText("part of a name, or a pattern with * and ?");
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
        getChildren().addAll(head, table);
        nets.treeProperty().addListener((p, old, now) -> show(now));
        nets.faultProperty().addListener((p, old, now) -> show(nets.treeProperty().get()));
        nets.knownProperty().addListener((p, old, now) -> table.refresh());
        show(nets.treeProperty().get());
    }

    private void buildTable() {
        table.setId("nets-table");
        table.setAccessibleText("Nets. Enter puts one into the question.");
        table.setShowRoot(false);
        table.fixedCellSizeProperty().bind(look.sized(ROW));
        empty.setWrapText(true);
        table.setPlaceholder(empty);
        column("net", 144, NetRow::label);
        column("route out", 120, this::routeOut);
        number("fan-out", 74, r -> r.isGroup() ? "" : String.valueOf(r.fanOut()));
        number("wires", 58, r -> r.isGroup() ? "" : String.valueOf(r.length()));
        number("latest, ns", 96, r -> r.latest().replace(" ns", ""));
        column("", 70, NetRow::remark);
        table.setRowFactory(t -> row());
        table.setOnKeyPressed(
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        take();
                        e.consume();
                    }
                });
        table.setOnMouseClicked(
                e -> {
                    if (e.getClickCount() == 2) {
                        take();
                    }
                });
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
        return row.isGroup()
                ? ""
                : nets.findObservability(row.name())
                        .map(NetObservability::toText)
                        .orElse(row.leadsOut() ? "…" : "no route out");
    }

    private void number(String title, double width, Function<NetRow, String> text) {
        TreeTableColumn<NetRow, String> column = column(title, width, text);
        column.getStyleClass().add("number");
        column.setComparator(LeadingNumberOrder.ORDER);
    }

    private TreeTableColumn<NetRow, String> column(
            String title, double width, Function<NetRow, String> text) {
        TreeTableColumn<NetRow, String> column = new TreeTableColumn<>(title);
        column.setCellValueFactory(
                c -> new ReadOnlyStringWrapper(text.apply(c.getValue().getValue())));
        column.prefWidthProperty().bind(look.sized(width));
        table.getColumns().add(column);
        return column;
    }

    private void take() {
        TreeItem<NetRow> chosen = table.getSelectionModel().getSelectedItem();
        if (chosen != null) {
            nets.take(chosen.getValue());
        }
    }

    private void show(Optional<NetTree> tree) {
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
