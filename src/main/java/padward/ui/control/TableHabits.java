package padward.ui.control;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.List;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SelectionMode;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableView;
import javafx.scene.control.Tooltip;
import javafx.scene.input.Clipboard;
import javafx.scene.input.ClipboardContent;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCodeCombination;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;

/**
 * What people expect of any table: several rows can be selected and copied, columns can be hidden,
 * and a cell that is cut tells its text.
 */
public final class TableHabits {
    private static final KeyCombination COPY =
            new KeyCodeCombination(KeyCode.C, KeyCombination.SHORTCUT_DOWN);

    private TableHabits() {}

    /** Gives them to a table. Its own menu items come first in its context menu. */
    public static <S> void install(TableView<S> table, MenuItem... own) {
        table.getSelectionModel().setSelectionMode(SelectionMode.MULTIPLE);
        table.setTableMenuButtonVisible(true);
        table.addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (COPY.match(e)) {
                        copy(table);
                        e.consume();
                    }
                });
        MenuItem copy = new MenuItem("Copy rows");
        copy.setAccelerator(COPY);
        copy.setOnAction(e -> copy(table));
        ContextMenu menu = new ContextMenu(own);
        menu.getItems().add(copy);
        table.setContextMenu(menu);
    }

    /** A column of texts whose cells tell their text when the pointer rests on them. */
    public static <S> void tellTexts(TableColumn<S, String> column) {
        column.setCellFactory(
                c ->
                        new TableCell<>() {
                            @Override
                            protected void updateItem(String text, boolean isEmpty) {
                                super.updateItem(text, isEmpty);
                                boolean any = !isEmpty && text != null && !text.isEmpty();
                                setText(any ? text : null);
                                setTooltip(any ? new Tooltip(text) : null);
                            }
                        });
    }

    private static <S> void copy(TableView<S> table) {
        String text = selectedAsCsv(table);
        if (!text.isEmpty()) {
            ClipboardContent content = new ClipboardContent();
            content.putString(text);
            Clipboard.getSystemClipboard().setContent(content);
        }
    }

    /** The selected rows as RFC 4180, with the heads of the visible columns; empty for none. */
    static <S> String selectedAsCsv(TableView<S> table) {
        List<Integer> rows = table.getSelectionModel().getSelectedIndices().sorted();
        if (rows.isEmpty()) {
            return "";
        }
        StringBuilder text = new StringBuilder();
        try (CSVPrinter out = new CSVPrinter(text, CSVFormat.RFC4180)) {
            List<TableColumn<S, ?>> columns = table.getVisibleLeafColumns();
            out.printRecord(columns.stream().map(TableColumn::getText).toList());
            for (int row : rows) {
                List<Object> cells = new ArrayList<>();
                columns.forEach(c -> cells.add(c.getCellData(row)));
                out.printRecord(cells);
            }
        } catch (IOException impossible) {
            throw new UncheckedIOException("nothing is written outside memory", impossible);
        }
        return text.toString();
    }
}
