package padward.ui.question;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Stream;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import javafx.collections.transformation.FilteredList;
import javafx.collections.transformation.SortedList;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.MenuItem;
import javafx.scene.control.TableColumn;
import javafx.scene.control.TableRow;
import javafx.scene.control.TableView;
import javafx.scene.control.TextField;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Question;
import padward.breakout.survey.PadRank;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.design.Design;
import padward.design.Port;
import padward.fabric.Pad;
import padward.ui.control.LeadingNumberOrder;
import padward.ui.control.TableHabits;
import padward.ui.model.WindowModel;

/**
 * All pads for the net, best first. The map shows the route to the pad under the pointer, or to the
 * selected one; Enter or a double click asks about that pad.
 */
public final class RoutesOutView extends VBox {
    /**
     * Limits of the width of the pad column, which fits the names; large fabrics have longer ones.
     */
    private static final double LEAST_PAD = 96;

    private static final double MOST_PAD = 170;
    private static final double LETTER = 7.3;

    private static final double ROW = 25;
    private static final double CHOICE = 170;
    private static final String ALL = "all pads";
    private static final String FREE = "unused pads";
    private static final String USED = "used pads";
    private static final String WIRED = "reachable with a lead";

    private final WindowModel model;
    private final ObservableList<Answer> answers = FXCollections.observableArrayList();
    private final FilteredList<Answer> shown = new FilteredList<>(answers);
    private final TableView<Answer> table = new TableView<>();
    private final TableColumn<Answer, String> pad = new TableColumn<>("pad");
    private final Label empty = new Label();
    private final Label title = new Label();
    private String lastNet = "";
    private final TextField filterText = new TextField();
    private final ChoiceBox<String> filter = new ChoiceBox<>();

    /** The pads for the net of the question that is shown. */
    public RoutesOutView(WindowModel model) {
        this.model = model;
        setId("routes-out");
        getStyleClass().add("side-part");
        setSpacing(6);
        setPadding(new Insets(10, 12, 10, 12));
        title.setId("routes-title");
        title.getStyleClass().add("faint");
        title.setTooltip(
                new Tooltip(
                        "Free pads with a place for a lead come first, then free pads, pads whose"
                                + " port loses them, pads whose obstacles may lose function, pads on"
                                + " which something follows, pads that something drives; then by"
                                + " what the design would lose, by obstacles, and by delay."));
        filter.getItems().setAll(ALL, FREE, USED, WIRED);
        filter.setValue(ALL);
        filter.setAccessibleText("Which pads are listed");
        filter.setId("routes-filter");
        filter.setMinWidth(Region.USE_PREF_SIZE);
        filterText.setId("routes-filter-text");
        filterText.setPromptText("pad, pin, bank, header …");
        filterText.setAccessibleText("List only pads with this text");
        filter.valueProperty().addListener((p, old, now) -> applyFilter());
        filterText.textProperty().addListener((p, old, now) -> applyFilter());
        shown.addListener((ListChangeListener<Answer>) c -> showTitle());
        table.getSortOrder()
                .addListener((ListChangeListener<TableColumn<Answer, ?>>) c -> showTitle());
        HBox.setHgrow(filterText, Priority.ALWAYS);
        filter.prefWidthProperty().bind(model.look().sized(CHOICE));
        HBox filters = new HBox(8, filterText, filter);
        filters.setAlignment(Pos.CENTER_LEFT);
        buildTable();
        VBox.setVgrow(table, Priority.ALWAYS);
        getChildren().addAll(title, filters, table);
        model.shown().surveyProperty().addListener((p, old, now) -> show(now));
        model.shown().answerProperty().addListener((p, old, now) -> showEmptyText());
        model.openedProperty().addListener((p, old, now) -> showEmptyText());
        show(model.shown().surveyProperty().get());
    }

    private void buildTable() {
        table.setId("routes-table");
        table.setAccessibleText("Routes out of the net, best first. Enter asks about the pad.");
        SortedList<Answer> sorted = new SortedList<>(shown);
        sorted.comparatorProperty().bind(table.comparatorProperty());
        table.setItems(sorted);
        table.fixedCellSizeProperty().bind(model.look().sized(ROW));
        table.setPlaceholder(empty);
        empty.setWrapText(true);
        empty.getStyleClass().add("faint");
        add(pad, LEAST_PAD, a -> a.question().padValue().name());
        column("pin", 42, a -> a.question().padValue().packagePin());
        column("answer", 70, AnswerText::word);
        TableColumn<Answer, String> delay = column("delay, ns", 90, RoutesOutView::delay);
        delay.getStyleClass().add("number");
        delay.setComparator(LeadingNumberOrder.ORDER);
        column("rank", 190, a -> PadRank.of(a).reason());
        column("would lose signal", 122, AnswerText::wouldLose);
        column("on the board", 190, a -> AnswerText.onBoard(a.question()));
        table.getSelectionModel()
                .selectedItemProperty()
                .addListener(
                        (p, old, now) ->
                                model.shown().previewProperty().set(Optional.ofNullable(now)));
        table.setOnKeyPressed(
                e -> {
                    if (e.getCode() == KeyCode.ENTER) {
                        askSelected();
                        e.consume();
                    }
                });
        table.setRowFactory(t -> row());
        MenuItem ask = new MenuItem("Ask about this pad");
        ask.setOnAction(e -> askSelected());
        TableHabits.install(table, ask);
    }

    private void applyFilter() {
        String text = filterText.getText().strip().toLowerCase(Locale.ROOT);
        shown.setPredicate(a -> fits(a, filter.getValue()) && contains(a, text));
    }

    /** Whether what the pad is called, or what is on it, contains a text in lower case. */
    private static boolean contains(Answer answer, String text) {
        Question question = answer.question();
        Pad pad = question.padValue();
        return Stream.of(
                        pad.name(),
                        pad.packagePin(),
                        pad.bank(),
                        portOn(answer).map(Port::name).orElse(""),
                        AnswerText.word(answer),
                        AnswerText.onBoard(question))
                .anyMatch(t -> t.toLowerCase(Locale.ROOT).contains(text));
    }

    /** Whose pads these are, how many, in which order. */
    private void showTitle() {
        Optional<Survey> survey = model.shown().surveyProperty().get();
        if (survey.isEmpty()) {
            title.setText("");
            return;
        }
        String net = survey.get().net().name();
        long open = shown.stream().filter(a -> a instanceof Answer.Open).count();
        String order =
                table.getSortOrder().isEmpty()
                        ? "best first"
                        : "by " + table.getSortOrder().get(0).getText();
        String all = answers.size() == shown.size() ? "" : " of " + answers.size();
        title.setText(
                net.substring(net.lastIndexOf('/') + 1)
                        + ": "
                        + shown.size()
                        + all
                        + " pads, "
                        + open
                        + " open, "
                        + order);
    }

    private TableRow<Answer> row() {
        TableRow<Answer> row = new TableRow<>();
        row.hoverProperty()
                .addListener(
                        (p, old, over) -> {
                            if (over && !row.isEmpty()) {
                                model.shown().previewProperty().set(Optional.of(row.getItem()));
                            } else if (!over) {
                                Answer chosen = table.getSelectionModel().getSelectedItem();
                                model.shown().previewProperty().set(Optional.ofNullable(chosen));
                            }
                        });
        row.setOnMouseClicked(
                e -> {
                    if (row.isEmpty()) {
                        // Outside all rows: nothing is selected or previewed any more.
                        table.getSelectionModel().clearSelection();
                    } else if (e.getClickCount() == 2) {
                        askSelected();
                    }
                });
        return row;
    }

    private void askSelected() {
        Answer chosen = table.getSelectionModel().getSelectedItem();
        if (chosen != null) {
            model.shown().askFor(chosen);
        }
    }

    private TableColumn<Answer, String> column(
            String title, double width, Function<Answer, String> text) {
        TableColumn<Answer, String> column = new TableColumn<>(title);
        add(column, width, text);
        return column;
    }

    private void add(
            TableColumn<Answer, String> column, double width, Function<Answer, String> text) {
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(text.apply(c.getValue())));
        column.prefWidthProperty().bind(model.look().sized(width));
        TableHabits.tellTexts(column);
        table.getColumns().add(column);
    }

    private void show(Optional<Survey> survey) {
        table.getSelectionModel().clearSelection();
        String net = survey.map(s -> s.net().name()).orElse(lastNet);
        if (!net.equals(lastNet)) {
            // what was sorted for one net is not for the next
            table.getSortOrder().clear();
            lastNet = net;
        }
        answers.setAll(survey.map(Survey::answers).orElse(List.of()));
        int longest =
                answers.stream()
                        .mapToInt(a -> a.question().padValue().name().length())
                        .max()
                        .orElse(0);
        double wanted = Math.max(LEAST_PAD, Math.min(MOST_PAD, 22 + longest * LETTER));
        pad.prefWidthProperty().bind(model.look().sized(wanted));
        showEmptyText();
        showTitle();
    }

    private void showEmptyText() {
        if (model.openedProperty().get().isEmpty()) {
            empty.setText("Open a design to see the routes out of its nets.");
        } else if (model.shown().answerProperty().get().isEmpty()
                && !model.shown().question().isForAllPads()) {
            empty.setText("Ask about a net: all pads that it can reach are listed here.");
        } else {
            empty.setText(
                    model.shown().surveyProperty().get().isPresent()
                            ? "No pads match the filter."
                            : "Surveying all pads …");
        }
    }

    private static boolean fits(Answer answer, String filter) {
        return switch (filter) {
            case FREE -> portOn(answer).isEmpty();
            case USED -> portOn(answer).isPresent();
            case WIRED ->
                    design(answer)
                            .board()
                            .findWiring(answer.question().pad())
                            .map(w -> w.attachments().stream().anyMatch(a -> a.kind().probeable()))
                            .orElse(false);
            default -> true;
        };
    }

    private static Design design(Answer answer) {
        return answer.question().design();
    }

    private static Optional<Port> portOn(Answer answer) {
        return design(answer).findPortOn(answer.question().pad());
    }

    private static String delay(Answer answer) {
        return answer.findRoute().map(w -> w.total().toText().replace(" ns", "")).orElse("");
    }
}
