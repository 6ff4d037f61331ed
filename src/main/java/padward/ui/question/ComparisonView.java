package padward.ui.question;

import java.util.ArrayList;
import java.util.List;
import javafx.application.Platform;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.css.PseudoClass;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.TableCell;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.ui.control.Controls;
import padward.ui.control.TableHabits;
import padward.ui.model.WindowModel;
import padward.ui.work.JobSlot;

/**
 * Pads side by side in one table, in place of the list of pads. What the survey knows is there at
 * once; then each pad is asked about, so that obstacles have their consequences.
 */
final class ComparisonView extends VBox {
    /** More pads than this do not fit side by side. */
    static final int MOST = 4;

    private static final PseudoClass SAME = PseudoClass.getPseudoClass("same");
    private static final double WHAT = 112;
    private static final double VALUE = 166;
    private static final double PADDING = 14;

    private final WindowModel model;
    private final JobSlot job;
    private final Label title = Controls.text("", "faint");
    private final FlowPane asks = new FlowPane(8, 6);
    private final TableView<ComparedPads.Row> table = new TableView<>();
    private final Runnable leave;
    private List<Answer> shown = List.of();

    /** How many of the selected pads did not fit. */
    private int leftOut;

    /**
     * @param leave goes back to the list
     */
    ComparisonView(WindowModel model, Runnable leave) {
        super(6);
        this.model = model;
        this.leave = leave;
        this.job = new JobSlot(model.jobs(), this);
        setId("comparison");
        title.setId("comparison-title");
        table.setId("comparison-table");
        table.setAccessibleText("Pads side by side. Escape goes back to the list.");
        table.setRowFactory(t -> row());
        TableHabits.installCopying(table);
        VBox.setVgrow(table, Priority.ALWAYS);
        getChildren().addAll(title, asks, table);
        model.look().textSizeProperty().addListener(p -> measureRows());
        addEventHandler(
                KeyEvent.KEY_PRESSED,
                e -> {
                    if (e.getCode() == KeyCode.ESCAPE) {
                        leave();
                        e.consume();
                    }
                });
    }

    /** Shows pads of one net side by side, as many as fit, and asks about each. */
    void compare(List<Answer> chosen) {
        List<Answer> answers = chosen.subList(0, Math.min(MOST, chosen.size()));
        leftOut = chosen.size() - answers.size();
        show(answers);
        // Later: the control that had the focus is just leaving the window.
        Platform.runLater(table::requestFocus);
        List<Question> questions = answers.stream().map(Answer::question).toList();
        job.start(
                "Comparing " + answers.size() + " pads",
                progress -> {
                    List<Answer> asked = new ArrayList<>();
                    for (Question question : questions) {
                        asked.add(Asker.ask(question, progress));
                    }
                    return asked;
                },
                this::show);
    }

    /** Forgets what is compared, as when another net is listed. */
    void clear() {
        job.cancel();
        shown = List.of();
    }

    private void leave() {
        clear();
        leave.run();
    }

    private void show(List<Answer> answers) {
        boolean samePads =
                answers.stream()
                        .map(a -> a.question().pad())
                        .toList()
                        .equals(shown.stream().map(a -> a.question().pad()).toList());
        shown = List.copyOf(answers);
        title.setText(
                "Pads for "
                        + answers.get(0).question().net().name()
                        + ". What is the same is faint."
                        + (leftOut == 0
                                ? ""
                                : " The first "
                                        + MOST
                                        + " of "
                                        + (MOST + leftOut)
                                        + " selected pads are compared."));
        if (!samePads) {
            buildColumns(answers);
            Button back =
                    Controls.button(
                            "comparison-back",
                            "Back to the list",
                            "Shows the list of pads again",
                            this::leave);
            asks.getChildren().setAll(back);
            for (Answer answer : answers) {
                asks.getChildren()
                        .add(
                                Controls.button(
                                        "comparison-ask-" + asks.getChildren().size(),
                                        "Ask about " + ComparedPads.head(answer),
                                        "Asks about this pad",
                                        () -> model.shown().askFor(answer)));
            }
        }
        // The same pads asked once more keep the rows that were selected meanwhile.
        List<Integer> selected =
                samePads ? List.copyOf(table.getSelectionModel().getSelectedIndices()) : List.of();
        table.getItems().setAll(new ComparedPads(answers).rows());
        selected.forEach(table.getSelectionModel()::select);
        measureRows();
    }

    /** The table remembers the heights of rows. Later: when texts are there in their new size. */
    private void measureRows() {
        Platform.runLater(table::refresh);
    }

    private void buildColumns(List<Answer> answers) {
        table.getColumns().clear();
        add("pad", WHAT, "What is compared", row -> row.what());
        for (int i = 0; i < answers.size(); i++) {
            int pad = i;
            add(
                    ComparedPads.head(answers.get(i)),
                    VALUE,
                    "Pad " + answers.get(i).question().padValue().name(),
                    row -> row.values().get(pad));
        }
    }

    private interface Value {
        String of(ComparedPads.Row row);
    }

    private void add(String head, double width, String meaning, Value value) {
        TableColumn<ComparedPads.Row, String> column = new TableColumn<>(head);
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(value.of(c.getValue())));
        column.setSortable(false);
        column.prefWidthProperty().bind(model.look().sized(width));
        column.setCellFactory(c -> new WrappedCell(column));
        TableHabits.tip(column, meaning);
        table.getColumns().add(column);
    }

    private static TableRow<ComparedPads.Row> row() {
        return new TableRow<>() {
            @Override
            protected void updateItem(ComparedPads.Row item, boolean isEmpty) {
                super.updateItem(item, isEmpty);
                pseudoClassStateChanged(SAME, !isEmpty && item != null && !item.differs());
            }
        };
    }

    /** A cell that is as high as its text needs. */
    private static final class WrappedCell extends TableCell<ComparedPads.Row, String> {
        private final Text text = new Text();

        WrappedCell(TableColumn<ComparedPads.Row, String> column) {
            text.getStyleClass().add("wrapped");
            text.wrappingWidthProperty().bind(column.widthProperty().subtract(PADDING));
        }

        @Override
        protected void updateItem(String value, boolean isEmpty) {
            super.updateItem(value, isEmpty);
            text.setText(value == null ? "" : value);
            setGraphic(isEmpty ? null : text);
        }
    }
}
