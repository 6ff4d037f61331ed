package padward.ui;

import java.util.function.Function;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.CheckBox;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.control.TreeItem;
import javafx.scene.control.TreeTableColumn;
import javafx.scene.control.TreeTableView;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import padward.base.BadInput;

/** All nets by their hierarchy; Enter or a double click takes one into the question. */
final class NetsView extends VBox {
    private static final double ROW = 25;
    private static final int OPENED_WHEN_FEWER = 60;

    private final ExplorerModel model;
    private final TreeTableView<NetRow> table = new TreeTableView<>();
    private final TextField filter = new TextField();
    private final CheckBox expression = new CheckBox("regular expression");
    private Background.Job building = () -> {};

    NetsView(ExplorerModel model) {
        this.model = model;
        setId("nets");
        setSpacing(6);
        setPadding(new Insets(10, 12, 10, 12));
        filter.setId("nets-filter");
        filter.setPromptText("part of a name, or a pattern with * and ?");
        filter.setAccessibleText("Which nets are listed");
        expression.setId("nets-expression");
        expression.setMinWidth(USE_PREF_SIZE);
        HBox.setHgrow(filter, Priority.ALWAYS);
        HBox head = new HBox(8, filter, expression);
        head.setAlignment(Pos.CENTER_LEFT);
        buildTable();
        VBox.setVgrow(table, Priority.ALWAYS);
        getChildren().addAll(head, table);
        filter.textProperty().addListener((p, old, now) -> rebuild());
        expression.selectedProperty().addListener((p, old, now) -> rebuild());
        model.openedProperty().addListener((p, old, now) -> rebuild());
        rebuild();
    }

    private void buildTable() {
        table.setId("nets-table");
        table.setAccessibleText("Nets. Enter takes one into the question.");
        table.setShowRoot(false);
        table.setFixedCellSize(ROW);
        table.setPlaceholder(new Label("No net fits."));
        column("net", 150, NetRow::label);
        column("fan-out", 72, r -> r.isGroup() ? "" : String.valueOf(r.fanOut()))
                .getStyleClass()
                .add("number");
        column("length", 66, r -> r.isGroup() ? "" : String.valueOf(r.length()))
                .getStyleClass()
                .add("number");
        column("latest sink", 126, NetRow::latest).getStyleClass().add("number");
        column("", 90, NetRow::remark);
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

    private TreeTableColumn<NetRow, String> column(
            String title, double width, Function<NetRow, String> text) {
        TreeTableColumn<NetRow, String> column = new TreeTableColumn<>(title);
        column.setCellValueFactory(
                c -> new ReadOnlyStringWrapper(text.apply(c.getValue().getValue())));
        column.setPrefWidth(width);
        table.getColumns().add(column);
        return column;
    }

    private void take() {
        TreeItem<NetRow> chosen = table.getSelectionModel().getSelectedItem();
        if (chosen != null && !chosen.getValue().isGroup()) {
            model.netTextProperty().set(chosen.getValue().name());
        }
    }

    private void rebuild() {
        building.cancel();
        building =
                model.listNets(filter.getText(), expression.isSelected(), this::show, this::tell);
    }

    private void show(NetTree tree) {
        TreeItem<NetRow> root = item(tree);
        root.setExpanded(true);
        boolean few = tree.row().fanOut() < OPENED_WHEN_FEWER;
        if (few) {
            expand(root);
        }
        table.setPlaceholder(new Label("No net fits."));
        table.setRoot(root);
    }

    private void tell(Exception fault) {
        table.setRoot(null);
        String text = fault instanceof BadInput ? fault.getMessage() : fault.toString();
        table.setPlaceholder(new Label(text));
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
