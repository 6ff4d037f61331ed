package padward.ui.control;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Control;
import javafx.scene.control.IndexedCell;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SelectionMode;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableColumnBase;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.control.TreeTableCell;
import javafx.scene.control.TreeTableColumn;
import javafx.scene.control.TreeTableView;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.text.Text;
import padward.format.tables.csv.CsvText;
import padward.ui.model.AppearanceModel;

/**
 * What people expect of any table: several rows can be selected and copied, columns can be hidden,
 * moved and fitted and stay as they were left, and a cell that is cut tells its text.
 */
public final class TableHabits {
    private static final KeyCombination COPY =
            new KeyCodeCombination(KeyCode.C, KeyCombination.SHORTCUT_DOWN);

    private static final double WIDEST_TIP = 560;

    private TableHabits() {}

    /**
     * Gives them to a table.
     *
     * @param own the table's own menu items for the selected rows, which come first
     */
    public static <S> void install(
            TableView<S> table, AppearanceModel look, Supplier<List<MenuItem>> own) {
        table.getSelectionModel().setSelectionMode(SelectionMode.MULTIPLE);
        table.setTableMenuButtonVisible(true);
        Columns columns = new Columns(table, table.getColumns(), look);
        install(
                table,
                () -> columnItems(columns),
                own,
                () -> csv(table, selectedRows(table)),
                () -> cell(table));
    }

    /** To a table whose columns change with what it shows, without remembering them. */
    public static <S> void installCopying(TableView<S> table) {
        table.getSelectionModel().setSelectionMode(SelectionMode.MULTIPLE);
        install(
                table,
                List::of,
                List::of,
                () -> csv(table, selectedRows(table)),
                () -> cell(table));
    }

    /** The same for a table of a hierarchy. */
    public static <S> void install(
            TreeTableView<S> table, AppearanceModel look, Supplier<List<MenuItem>> own) {
        table.getSelectionModel().setSelectionMode(SelectionMode.MULTIPLE);
        table.setTableMenuButtonVisible(true);
        Columns columns = new Columns(table, table.getColumns(), look);
        install(
                table,
                () -> columnItems(columns),
                own,
                () -> selectedAsCsv(table),
                () -> cell(table));
    }

    private static void install(
            Control table,
            Supplier<List<MenuItem>> arranging,
            Supplier<List<MenuItem>> own,
            Supplier<String> rows,
            Supplier<String> cell) {
        table.addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (COPY.match(e)) {
                        copy(rows.get());
                        e.consume();
                    }
                });
        ContextMenu menu = new ContextMenu();
        // Filled when it opens: what can be done depends on the rows.
        menu.setOnShowing(
                e -> {
                    List<MenuItem> items = new ArrayList<>(own.get());
                    if (!items.isEmpty()) {
                        items.add(new SeparatorMenuItem());
                    }
                    MenuItem copyRows =
                            ThingMenu.item("Copy rows with heads", () -> copy(rows.get()));
                    copyRows.setAccelerator(COPY);
                    items.add(copyRows);
                    items.add(ThingMenu.item("Copy the cell", () -> copy(cell.get())));
                    items.addAll(arranging.get());
                    menu.getItems().setAll(items);
                });
        // An empty menu would not open.
        menu.getItems().add(new MenuItem(""));
        table.setContextMenu(menu);
    }

    private static List<MenuItem> columnItems(Columns columns) {
        return List.of(
                new SeparatorMenuItem(),
                ThingMenu.item("Fit columns to their texts", columns::fit),
                ThingMenu.item("Columns as at first", columns::reset));
    }

    /** A column of texts whose cells, where they are cut, tell their text to the pointer. */
    public static <S> void tellTexts(TableColumn<S, String> column) {
        CutText cut = new CutText();
        column.setCellFactory(
                c ->
                        cut.on(
                                new TableCell<>() {
                                    @Override
                                    protected void updateItem(String text, boolean isEmpty) {
                                        super.updateItem(text, isEmpty);
                                        setText(isEmpty ? null : text);
                                    }
                                }));
    }

    /** The same in a table of a hierarchy. */
    public static <S> void tellTexts(TreeTableColumn<S, String> column) {
        CutText cut = new CutText();
        column.setCellFactory(
                c ->
                        cut.on(
                                new TreeTableCell<>() {
                                    @Override
                                    protected void updateItem(String text, boolean isEmpty) {
                                        super.updateItem(text, isEmpty);
                                        setText(isEmpty ? null : text);
                                    }
                                }));
    }

    /** The tooltip of the cells of a column: one for all, because each is a window of its own. */
    private static final class CutText {
        private final Tooltip tip = new Tooltip();

        CutText() {
            tip.setWrapText(true);
            tip.setMaxWidth(WIDEST_TIP);
        }

        <C extends IndexedCell<String>> C on(C cell) {
            cell.setOnMouseEntered(e -> tell(cell));
            // Below a pointer that rests, a scrolled table shows another row.
            cell.textProperty()
                    .addListener(
                            (p, old, now) -> {
                                if (cell.isHover()) {
                                    cell.setTooltip(null);
                                }
                            });
            cell.setOnMouseMoved(
                    e -> {
                        if (cell.getTooltip() == null) {
                            tell(cell);
                        }
                    });
            return cell;
        }

        private void tell(IndexedCell<String> cell) {
            tip.setText(cell.getText());
            cell.setTooltip(isCut(cell) ? tip : null);
        }

        /** Whether it shows less than its text. */
        private static boolean isCut(IndexedCell<String> cell) {
            return cell.lookup(".text") instanceof Text shown
                    && !shown.getText().equals(cell.getText());
        }
    }

    /** Says what a column means, on its head. */
    public static void tip(TableColumnBase<?, ?> column, String meaning) {
        Columns.tip(column, meaning);
    }

    /** Keeps a column from being hidden. */
    public static void keepVisible(TableColumnBase<?, ?> column) {
        column.visibleProperty()
                .addListener(
                        (p, old, now) -> {
                            if (!now) {
                                column.setVisible(true);
                            }
                        });
    }

    private static void copy(String text) {
        if (!text.isEmpty()) {
            ThingMenu.copy(text);
        }
    }

    private static <S> List<Integer> selectedRows(TableView<S> table) {
        return table.getSelectionModel().getSelectedIndices().stream().sorted().toList();
    }

    private static <S> String cell(TableView<S> table) {
        var at = table.getFocusModel().getFocusedCell();
        return at.getTableColumn() == null || at.getRow() < 0
                ? firstCell(
                        table.getVisibleLeafColumns(),
                        selectedRows(table),
                        (column, row) -> column.getCellData(row))
                : String.valueOf(at.getTableColumn().getCellData(at.getRow()));
    }

    private static <S> String cell(TreeTableView<S> table) {
        var at = table.getFocusModel().getFocusedCell();
        return at.getTableColumn() == null || at.getRow() < 0
                ? firstCell(
                        table.getVisibleLeafColumns(),
                        selectedRows(table),
                        (column, row) -> column.getCellData(row))
                : String.valueOf(at.getTableColumn().getCellData(at.getRow()));
    }

    /** Without a focused cell, that of the first column. */
    private static <C> String firstCell(List<C> columns, List<Integer> rows, Cells<C> cells) {
        if (rows.isEmpty() || columns.isEmpty()) {
            return "";
        }
        Object first = cells.at(columns.get(0), rows.get(0));
        return first == null ? "" : first.toString();
    }

    private static <S> List<Integer> selectedRows(TreeTableView<S> table) {
        return table.getSelectionModel().getSelectedIndices().stream().sorted().toList();
    }

    private static <S> String selectedAsCsv(TreeTableView<S> table) {
        List<TreeTableColumn<S, ?>> columns = table.getVisibleLeafColumns();
        return csv(columns, selectedRows(table), (column, row) -> column.getCellData(row));
    }

    private static <S> String csv(TableView<S> table, List<Integer> rows) {
        List<TableColumn<S, ?>> columns = table.getVisibleLeafColumns();
        return csv(columns, rows, (column, row) -> column.getCellData(row));
    }

    private interface Cells<C> {
        Object at(C column, int row);
    }

    /** Rows as RFC 4180, with the heads of the visible columns; empty for none. */
    private static <C extends TableColumnBase<?, ?>> String csv(
            List<C> columns, List<Integer> rows, Cells<C> cells) {
        List<List<String>> lines = new ArrayList<>();
        for (int row : rows) {
            List<String> line = new ArrayList<>();
            columns.forEach(c -> line.add(text(cells.at(c, row))));
            lines.add(line);
        }
        return lines.isEmpty()
                ? ""
                : CsvText.of(columns.stream().map(TableColumnBase::getText).toList(), lines);
    }

    private static String text(Object value) {
        return value == null ? "" : value.toString();
    }
}
