package padward.ui.control;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import javafx.application.Platform;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import javafx.scene.Node;
import javafx.scene.control.Control;
import javafx.scene.control.TableColumnBase;
import javafx.scene.control.Tooltip;
import javafx.scene.control.skin.TableColumnHeader;
import javafx.scene.text.Text;
import padward.ui.model.AppearanceModel;

/**
 * The columns of one table: their order, widths and whether they are shown stay as the user left
 * them, and their heads tell what they mean.
 */
final class Columns {
    private static final String TIP = "padward-column-tip";
    private static final double ROOM = 18;
    private static final int MOST_MEASURED = 300;
    private static final double WIDEST = 420;

    private final Control table;
    private final ObservableList<? extends TableColumnBase<?, ?>> columns;
    private final AppearanceModel look;
    private final List<AppearanceModel.Column> first = new ArrayList<>();
    private boolean arranging;

    /** Arranges the columns as they were left, and keeps what the user changes. */
    Columns(
            Control table,
            ObservableList<? extends TableColumnBase<?, ?>> columns,
            AppearanceModel look) {
        this.table = table;
        this.columns = columns;
        this.look = look;
        columns.forEach(c -> first.add(state(c, c.getPrefWidth())));
        arrange(look.columns().getOrDefault(table.getId(), List.of()));
        columns.forEach(
                c -> {
                    c.visibleProperty().addListener((p, old, now) -> keep());
                    c.widthProperty().addListener((p, old, now) -> keep());
                });
        columns.addListener(
                (ListChangeListener<TableColumnBase<?, ?>>)
                        c -> {
                            keep();
                            Platform.runLater(this::showTips);
                        });
        table.skinProperty().addListener((p, old, now) -> Platform.runLater(this::showTips));
    }

    /** Says what a column means, on its head. */
    static void tip(TableColumnBase<?, ?> column, String meaning) {
        column.getProperties().put(TIP, meaning);
    }

    private void showTips() {
        for (Node node : table.lookupAll(".column-header")) {
            if (node instanceof TableColumnHeader head && head.getTableColumn() != null) {
                Object tip = head.getTableColumn().getProperties().get(TIP);
                if (tip != null) {
                    Tooltip.install(head, new Tooltip((String) tip));
                }
            }
        }
    }

    private AppearanceModel.Column state(TableColumnBase<?, ?> column, double width) {
        return new AppearanceModel.Column(
                column.getText(), width / look.lettersProperty().get(), column.isVisible());
    }

    private void keep() {
        if (!arranging && table.getScene() != null) {
            look.columns()
                    .put(table.getId(), columns.stream().map(c -> state(c, c.getWidth())).toList());
        }
    }

    private void arrange(List<AppearanceModel.Column> states) {
        Map<String, Integer> places = new HashMap<>();
        for (AppearanceModel.Column state : states) {
            places.put(state.head(), places.size());
        }
        arranging = true;
        for (TableColumnBase<?, ?> column : columns) {
            Integer place = places.get(column.getText());
            if (place != null) {
                set(column, states.get(place).width());
                column.setVisible(states.get(place).shown());
            }
        }
        if (!places.isEmpty()) {
            order(columns, places);
        }
        arranging = false;
    }

    private static <C extends TableColumnBase<?, ?>> void order(
            ObservableList<C> columns, Map<String, Integer> places) {
        List<C> sorted = new ArrayList<>(columns);
        sorted.sort(
                (a, b) ->
                        Integer.compare(
                                places.getOrDefault(a.getText(), places.size()),
                                places.getOrDefault(b.getText(), places.size())));
        if (!sorted.equals(columns)) {
            columns.setAll(sorted);
        }
    }

    private void set(TableColumnBase<?, ?> column, double width) {
        column.prefWidthProperty().unbind();
        column.prefWidthProperty().bind(look.sized(width));
    }

    /** Widths, order and visibility as they were before the user changed them. */
    void reset() {
        arrange(first);
        look.columns().remove(table.getId());
    }

    /** Makes each column as wide as its longest text, to a limit. */
    void fit() {
        for (TableColumnBase<?, ?> column : columns) {
            double widest = width(column.getText()) * 1.1;
            for (int row = 0;
                    row < MOST_MEASURED && column.getCellObservableValue(row) != null;
                    row++) {
                widest = Math.max(widest, width(String.valueOf(column.getCellData(row))));
            }
            double wide = Math.min(WIDEST, widest + ROOM);
            set(column, wide / look.lettersProperty().get());
        }
    }

    private double width(String text) {
        Text measured = new Text(text);
        measured.setStyle("-fx-font-size: " + look.textSizeProperty().get() * 0.893 + "px;");
        return measured.getLayoutBounds().getWidth() * look.lettersProperty().get();
    }
}
