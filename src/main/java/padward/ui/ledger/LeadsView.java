package padward.ui.ledger;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import javafx.beans.value.ChangeListener;
import javafx.css.PseudoClass;
import javafx.geometry.Insets;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.ColumnConstraints;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import padward.base.BadInput;
import padward.format.ledger.LeadField;
import padward.ui.control.Controls;
import padward.ui.work.FaultText;

/**
 * A row for each line with what the ledger says of its lead. A field is taken over by Enter or when
 * it is left; Esc shows the old value again.
 */
final class LeadsView extends VBox {
    /** The fields that are shown, with their titles, widths and purposes. */
    private enum Column {
        CHANNEL(LeadField.CHANNEL, "Channel", 76, "The instrument's channel"),
        NAME(LeadField.NAME, "Name", 120, "The lead's own name"),
        POD(LeadField.POD, "Pod", 76, "What bundles it with others"),
        COLOUR(LeadField.COLOUR, "Colour", 96, "Its colour"),
        LENGTH(
                LeadField.LENGTH,
                "Length, m",
                84,
                "Its length in metres; if empty, the length at the top is taken");

        private final LeadField field;
        private final String title;
        private final double width;
        private final String purpose;

        Column(LeadField field, String title, double width, String purpose) {
            this.field = field;
            this.title = title;
            this.width = width;
            this.purpose = purpose;
        }
    }

    private static final double MOST_HEIGHT = 180;

    private final LeadsModel leads;
    private final GridPane grid = new GridPane();
    private final Label fault = Controls.text("", "note");
    private final List<Cell> cells = new ArrayList<>();
    private List<String> shownLines = List.of();

    /**
     * Shows the leads.
     *
     * @param leads what is shown and changed
     */
    LeadsView(LeadsModel leads) {
        this.leads = leads;
        setId("leads");
        setSpacing(6);
        grid.setHgap(8);
        grid.setVgap(4);
        grid.setPadding(new Insets(2, 14, 6, 14));
        ScrollPane scroll = new ScrollPane(grid);
        scroll.setFitToWidth(true);
        scroll.setMaxHeight(MOST_HEIGHT);
        scroll.getStyleClass().add("plain-scroll");
        fault.setId("leads-fault");
        fault.setMaxWidth(Double.MAX_VALUE);
        fault.setWrapText(true);
        fault.setMinHeight(USE_PREF_SIZE);
        fault.visibleProperty().bind(fault.textProperty().isNotEmpty());
        fault.managedProperty().bind(fault.visibleProperty());
        getChildren().addAll(scroll, fault);
        show();
    }

    /** A field, what was shown in it before the user typed, and what is wrong with its text. */
    private static final class Cell {
        private static final PseudoClass AT_FAULT = PseudoClass.getPseudoClass("at-fault");

        private final String port;
        private final Column column;
        private final TextField text = new TextField();
        private String shown = "";
        private String fault = "";

        private Cell(String port, Column column) {
            this.port = port;
            this.column = column;
        }

        private LeadField field() {
            return column.field;
        }

        private void show(String value) {
            shown = value;
            text.setText(value);
            setFault("");
        }

        private void setFault(String wrong) {
            fault = wrong;
            text.pseudoClassStateChanged(AT_FAULT, !wrong.isEmpty());
            text.setAccessibleHelp(wrong);
        }

        private boolean isOfSame(Cell other) {
            return port.equals(other.port) && column == other.column;
        }

        /** Goes on where another cell of the same lead was being typed in. */
        private void goOn(Cell before) {
            if (before.isBeingTyped()) {
                text.setText(before.text.getText());
                setFault(before.fault);
            }
        }

        private void takeFocus(Cell before) {
            text.requestFocus();
            text.selectRange(before.text.getAnchor(), before.text.getCaretPosition());
        }

        private boolean isBeingTyped() {
            return !text.getText().equals(shown);
        }
    }

    /** Shows the leads as they are kept now; what is being typed stays. */
    void show() {
        List<LeadsModel.Row> rows = leads.rows();
        List<String> lines = rows.stream().map(r -> r.lead().port() + " " + r.net()).toList();
        if (!lines.equals(shownLines)) {
            shownLines = lines;
            rebuild(rows);
        }
        setVisible(!rows.isEmpty());
        setManaged(!rows.isEmpty());
        for (Cell cell : cells) {
            if (!cell.isBeingTyped()) {
                leads.value(cell.port, cell.field()).ifPresent(cell::show);
            }
        }
        showFaults();
    }

    private void showFaults() {
        fault.setText(
                cells.stream()
                        .map(c -> c.fault)
                        .filter(f -> !f.isEmpty())
                        .collect(Collectors.joining("\n")));
    }

    private void rebuild(List<LeadsModel.Row> rows) {
        // First, because the cells that go may lose the focus and must not be taken over then.
        List<Cell> before = List.copyOf(cells);
        Optional<Cell> focused = before.stream().filter(c -> c.text.isFocused()).findFirst();
        cells.clear();
        build(rows);
        for (Cell cell : cells) {
            before.stream().filter(cell::isOfSame).forEach(cell::goOn);
            focused.filter(cell::isOfSame).ifPresent(cell::takeFocus);
        }
    }

    private void build(List<LeadsModel.Row> rows) {
        grid.getChildren().clear();
        grid.getColumnConstraints().clear();
        ColumnConstraints line = new ColumnConstraints();
        line.setHgrow(Priority.ALWAYS);
        grid.getColumnConstraints().add(line);
        Label title = new Label("Leads");
        title.getStyleClass().add("side-title");
        grid.add(title, 0, 0);
        for (Column column : Column.values()) {
            Label head = new Label(column.title);
            head.getStyleClass().addAll("faint", "small");
            grid.add(head, 1 + column.ordinal(), 0);
        }
        for (int i = 0; i < rows.size(); i++) {
            LeadsModel.Row row = rows.get(i);
            Label what = new Label(row.place() + ": " + row.net());
            what.setMinWidth(60);
            what.setTooltip(new Tooltip(what.getText() + ", port " + row.lead().port()));
            grid.add(what, 0, 1 + i);
            for (Column column : Column.values()) {
                grid.add(field(i, row, column), 1 + column.ordinal(), 1 + i);
            }
        }
    }

    private TextField field(int index, LeadsModel.Row row, Column column) {
        String port = row.lead().port();
        Cell cell = new Cell(port, column);
        cell.show(column.field.of(row.lead()));
        cells.add(cell);
        TextField text = cell.text;
        text.setId("lead-" + (index + 1) + "-" + column.field.word());
        text.setPrefWidth(column.width);
        text.setMinWidth(column.width);
        text.setAccessibleText(column.title + " of the lead of " + port);
        text.setTooltip(new Tooltip(column.purpose));
        text.setOnAction(e -> take(cell));
        ChangeListener<Boolean> left =
                (p, old, now) -> {
                    if (!now) {
                        take(cell);
                    }
                };
        text.focusedProperty().addListener(left);
        text.addEventFilter(KeyEvent.KEY_PRESSED, e -> restore(e, cell));
        return text;
    }

    /** Takes over what was typed; a text that nobody typed is never written back. */
    private void take(Cell cell) {
        if (!cells.contains(cell)) {
            return;
        }
        Optional<BadInput> wrong =
                cell.isBeingTyped()
                        ? leads.set(cell.port, cell.field(), cell.text.getText())
                        : Optional.empty();
        if (wrong.isPresent()) {
            cell.setFault(
                    cell.column.title
                            + " of the lead of "
                            + cell.port
                            + ": "
                            + FaultText.needs(wrong.get())
                            + ".");
        } else {
            leads.value(cell.port, cell.field()).ifPresent(cell::show);
        }
        showFaults();
    }

    private void restore(KeyEvent event, Cell cell) {
        if (event.getCode() == KeyCode.ESCAPE && cell.isBeingTyped()) {
            leads.value(cell.port, cell.field()).ifPresent(cell::show);
            showFaults();
            event.consume();
        }
    }
}
