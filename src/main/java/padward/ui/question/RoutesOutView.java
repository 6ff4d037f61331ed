package padward.ui.question;

import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import javafx.application.Platform;
import javafx.beans.binding.Bindings;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ListChangeListener;
import javafx.collections.ObservableList;
import javafx.collections.transformation.FilteredList;
import javafx.collections.transformation.SortedList;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
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
import padward.design.Port;
import padward.ui.control.Actions;
import padward.ui.control.Choices;
import padward.ui.control.Controls;
import padward.ui.control.LeadingNumberOrder;
import padward.ui.control.TableHabits;
import padward.ui.control.ThingMenu;
import padward.ui.model.QuestionModel;
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

    /** What the filter looks at, made once for each answer and not at each letter. */
    private final Map<Answer, String> haystacks = new IdentityHashMap<>();

    private final TableView<Answer> table = new TableView<>();
    private final TableColumn<Answer, String> pad = new TableColumn<>("pad");
    private final DelayedNotice notice = new DelayedNotice();
    private final Label empty = new Label();
    private final Label title = new Label();
    private String lastNet = "";
    private final TextField filterText = new TextField();
    private final ChoiceBox<String> filter = Choices.box();
    private final ComparisonView comparison;
    private final StartPage start;
    private final VBox list;

    /** The pads for the net of the question that is shown. */
    public RoutesOutView(WindowModel model, Actions actions) {
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
        filterText.setPromptText("pin, J1, bank A, 3.3 V, < 2.5");
        filterText.setAccessibleText("List only pads with these words");
        filterText.setTooltip(
                new Tooltip(
                        "Words of the pad, its pin, port, bank, supply or header; < 2.5 for delays"
                                + " below 2.5 ns. Pads with all of them are listed."));
        filter.valueProperty().addListener((p, old, now) -> applyFilter());
        filterText.textProperty().addListener((p, old, now) -> applyFilter());
        shown.addListener((ListChangeListener<Answer>) c -> showTitle());
        notice.overProperty().addListener((p, old, now) -> showEmptyText());
        table.getSortOrder()
                .addListener((ListChangeListener<TableColumn<Answer, ?>>) c -> showTitle());
        HBox.setHgrow(filterText, Priority.ALWAYS);
        filter.prefWidthProperty().bind(model.look().sized(CHOICE));
        Button compare =
                Controls.button(
                        "routes-compare",
                        "Compare",
                        "Shows the selected pads side by side: delay, price, what follows, header"
                                + " pin, bank, obstacles",
                        this::compareSelected);
        compare.disableProperty()
                .bind(Bindings.size(table.getSelectionModel().getSelectedItems()).lessThan(2));
        HBox filters = new HBox(8, filterText, filter);
        filters.setAlignment(Pos.CENTER_LEFT);
        buildTable();
        VBox.setVgrow(table, Priority.ALWAYS);
        HBox.setHgrow(title, Priority.ALWAYS);
        title.setMaxWidth(Double.MAX_VALUE);
        HBox head = new HBox(8, title, compare);
        head.setAlignment(Pos.CENTER_LEFT);
        list = new VBox(6, head, filters, table);
        VBox.setVgrow(list, Priority.ALWAYS);
        comparison = new ComparisonView(model, this::showList);
        VBox.setVgrow(comparison, Priority.ALWAYS);
        start = new StartPage(model, actions);
        VBox.setVgrow(start, Priority.ALWAYS);
        showStartOrList();
        model.questions().shownProperty().addListener((p, old, now) -> dropComparison());
        model.shown().surveyProperty().addListener((p, old, now) -> show(now));
        model.shown().answerProperty().addListener((p, old, now) -> showState());
        model.openedProperty().addListener((p, old, now) -> showState());
        model.shown().askedTextProperty().addListener((p, old, now) -> showState());
        model.shown()
                .scopeProperty()
                .addListener(
                        (p, old, now) -> {
                            applyFilter();
                            showStartOrList();
                        });
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
        TableHabits.keepVisible(
                column(
                        "pin",
                        42,
                        "Pin or ball of the package",
                        a -> a.question().padValue().packagePin()));
        TableHabits.keepVisible(
                column(
                        "header",
                        72,
                        "Where a lead can be put: header and pin, or test point",
                        PadFacts::leadPlace));
        column("answer", 68, "Whether a route is there now", AnswerText::word);
        TableColumn<Answer, String> delay =
                column(
                        "delay, ns",
                        100,
                        "From the net's driver to the pad, at the fast and the slow corner",
                        PadFacts::delay);
        delay.getStyleClass().add("number");
        delay.setComparator(LeadingNumberOrder.ORDER);
        column("rank", 190, "Why it stands where it stands", a -> PadRank.of(a).reason());
        add(pad, LEAST_PAD, "Name of the pad", a -> a.question().padValue().name());
        column(
                "would lose signal",
                122,
                "What the design would lose at the most; empty for nothing",
                AnswerText::wouldLose);
        column("bank", 84, "Bank of the pad with its supply", PadFacts::bank);
        column(
                "on the board",
                190,
                "What the board has on the pad",
                a -> AnswerText.onBoard(a.question()));
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
        TableHabits.install(table, model.look(), this::menu);
    }

    private List<MenuItem> menu() {
        List<Answer> chosen = List.copyOf(table.getSelectionModel().getSelectedItems());
        List<MenuItem> items = new ArrayList<>();
        if (chosen.isEmpty()) {
            return items;
        }
        Answer first = chosen.get(0);
        items.add(ThingMenu.item("Ask about this pad", this::askSelected));
        items.add(ThingMenu.item("Ask in a new tab", () -> askInNewTab(first)));
        if (chosen.size() > 1) {
            items.add(ThingMenu.item("Compare these pads", this::compareSelected));
        }
        items.add(
                ThingMenu.item(
                        chosen.size() == 1
                                ? "Let the group use this pad"
                                : "Let the group use these pads",
                        () ->
                                model.groupPadsProperty()
                                        .set(
                                                chosen.stream()
                                                        .map(a -> a.question().padValue().name())
                                                        .collect(Collectors.joining(", ")))));
        items.add(
                ThingMenu.item(
                        "Show on the map",
                        () -> model.showOnMap(first.question().padValue().name())));
        items.add(
                ThingMenu.item(
                        "Copy the answer", () -> ThingMenu.copy(AnswerText.sentence(first))));
        items.add(ThingMenu.item("Best first", () -> table.getSortOrder().clear()));
        return items;
    }

    private void showState() {
        showEmptyText();
        showStartOrList();
    }

    /** The page to begin with, until something is asked; a comparison stays. */
    private void showStartOrList() {
        if (start.isWanted()) {
            start.update();
            if (!getChildren().equals(List.of(start))) {
                getChildren().setAll(start);
            }
        } else if (!getChildren().contains(list) && !getChildren().contains(comparison)) {
            getChildren().setAll(list);
        }
    }

    /** Whatever is compared, it is not about the question that is shown now. */
    private void dropComparison() {
        comparison.clear();
        getChildren().clear();
        showStartOrList();
    }

    private void compareSelected() {
        List<Answer> chosen = List.copyOf(table.getSelectionModel().getSelectedItems());
        if (chosen.size() >= 2) {
            getChildren().setAll(comparison);
            comparison.compare(chosen);
        }
    }

    /** Shows the list of pads again if a comparison is in its place. */
    public void endComparison() {
        if (getChildren().contains(comparison)) {
            comparison.clear();
            showList();
        }
    }

    private void showList() {
        getChildren().setAll(list);
        // Later: the control that had the focus is just leaving the window.
        Platform.runLater(table::requestFocus);
    }

    private void askInNewTab(Answer answer) {
        model.questions().open(answer.question().net().name());
        model.shown().askFor(answer);
    }

    private void applyFilter() {
        List<Integer> asked = model.shown().scopeProperty().getValue().pads();
        PadFilter words = PadFilter.of(filterText.getText());
        shown.setPredicate(
                a ->
                        (asked.isEmpty() || asked.contains(a.question().pad()))
                                && fits(a, filter.getValue())
                                && words.fits(
                                        a, haystacks.computeIfAbsent(a, RoutesOutView::haystack)));
        if (!words.fault().isEmpty()) {
            title.setText(words.fault());
        }
    }

    /** What the pad is called, and what is on it. */
    private static String haystack(Answer answer) {
        Question question = answer.question();
        return String.join(
                " ",
                question.padValue().name(),
                question.padValue().packagePin(),
                "bank " + PadFacts.bank(answer),
                PadFacts.port(answer).map(Port::name).orElse(""),
                AnswerText.word(answer),
                PadFacts.leadPlace(answer),
                AnswerText.onBoard(question));
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
            String title, double width, String meaning, Function<Answer, String> text) {
        TableColumn<Answer, String> column = new TableColumn<>(title);
        add(column, width, meaning, text);
        return column;
    }

    private void add(
            TableColumn<Answer, String> column,
            double width,
            String meaning,
            Function<Answer, String> text) {
        TableHabits.tip(column, meaning);
        column.setCellValueFactory(c -> new ReadOnlyStringWrapper(text.apply(c.getValue())));
        column.prefWidthProperty().bind(model.look().sized(width));
        TableHabits.tellTexts(column);
        table.getColumns().add(column);
    }

    private void show(Optional<Survey> survey) {
        if (isOfAnotherState(survey)) {
            // What was compared is not so any more.
            dropComparison();
        } else {
            showStartOrList();
        }
        table.getSelectionModel().clearSelection();
        String net = survey.map(s -> s.net().name()).orElse(lastNet);
        if (!net.equals(lastNet)) {
            // what was sorted for one net is not for the next
            table.getSortOrder().clear();
            lastNet = net;
        }
        haystacks.clear();
        answers.setAll(survey.map(Survey::answers).orElse(List.of()));
        int longest =
                answers.stream()
                        .mapToInt(a -> a.question().padValue().name().length())
                        .max()
                        .orElse(0);
        double wanted = Math.max(LEAST_PAD, Math.min(MOST_PAD, 22 + longest * LETTER));
        if (!model.look().columns().containsKey(table.getId())) {
            pad.prefWidthProperty().bind(model.look().sized(wanted));
        }
        applyFilter();
        if (model.shown().scopeProperty().getValue().about() == QuestionModel.About.ANY_PAD
                && !table.getItems().isEmpty()) {
            table.getSelectionModel().select(0);
        }
        showEmptyText();
        showTitle();
    }

    /** Whether a survey is about another net or another state of the design than the list. */
    private boolean isOfAnotherState(Optional<Survey> survey) {
        return answers.isEmpty()
                || survey.isEmpty()
                || survey.get().answers().isEmpty()
                || !survey.get().net().name().equals(lastNet)
                || survey.get().answers().get(0).question().design()
                        != answers.get(0).question().design();
    }

    private void showEmptyText() {
        boolean surveyed = model.shown().surveyProperty().get().isPresent();
        boolean asked =
                model.shown().answerProperty().get().isPresent()
                        || model.shown().question().isForAnyPad();
        notice.follow(model.openedProperty().get().isPresent() && asked && !surveyed);
        if (model.openedProperty().get().isEmpty()) {
            empty.setText("Open a design to see the routes out of its nets.");
        } else if (!asked) {
            empty.setText("Ask about a net: all pads that it can reach are listed here.");
        } else {
            String meanwhile = notice.overProperty().get() ? "Surveying all pads …" : "";
            empty.setText(surveyed ? "No pads match the filter." : meanwhile);
        }
    }

    private static boolean fits(Answer answer, String filter) {
        return switch (filter) {
            case FREE -> PadFacts.port(answer).isEmpty();
            case USED -> PadFacts.port(answer).isPresent();
            case WIRED ->
                    PadFacts.design(answer)
                            .board()
                            .findWiring(answer.question().pad())
                            .map(w -> w.attachments().stream().anyMatch(a -> a.kind().probeable()))
                            .orElse(false);
            default -> true;
        };
    }
}
