package padward.ui.question;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.control.Button;
import javafx.scene.control.ChoiceBox;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import padward.breakout.Answer;
import padward.breakout.AnswerText;
import padward.breakout.Keeping;
import padward.fabric.Corner;
import padward.ui.control.Actions;
import padward.ui.control.CompletingField;
import padward.ui.control.Controls;
import padward.ui.control.WorkBar;
import padward.ui.model.ExplorerModel;
import padward.ui.model.Recent;
import padward.ui.scene.Opened;

/** The question as a sentence with two fields, and the answer under it. */
public final class QuestionBar extends VBox {
    private final ExplorerModel model;
    private final Label word = new Label();
    private final Label sentence = new Label();
    private final VBox cautions = new VBox(2);
    private final Button bringOut;
    private final Actions actions;
    private final HBox answerRow;

    /** Follows the question that is in front; its buttons do what the menus do. */
    public QuestionBar(ExplorerModel model, Actions actions) {
        this.model = model;
        this.actions = actions;
        this.bringOut = Controls.button(actions.get("try"), "Bring it out");
        getStyleClass().add("question-bar");
        setPadding(new Insets(12, 16, 10, 16));
        setSpacing(8);
        word.setId("answer-word");
        word.getStyleClass().add("answer-word");
        word.setMinWidth(Region.USE_PREF_SIZE);
        sentence.setId("answer-sentence");
        sentence.setWrapText(true);
        sentence.setMinHeight(Region.USE_PREF_SIZE);
        HBox.setHgrow(sentence, Priority.ALWAYS);
        bringOut.setId("bring-out-button");
        answerRow = new HBox(10, word, sentence, bringOut);
        answerRow.setAlignment(Pos.TOP_LEFT);
        cautions.setId("cautions");
        getChildren().addAll(questionRow(), answerRow, cautions);
        model.shown().answerProperty().addListener((p, old, now) -> show(now));
        model.openedProperty()
                .addListener((p, old, now) -> show(model.shown().answerProperty().get()));
        show(model.shown().answerProperty().get());
    }

    private HBox questionRow() {
        TextField net =
                field("net-field", "net, e.g. pump/*", this::netNames, model.recentNets(), 300);
        net.textProperty().bindBidirectional(model.shown().netTextProperty());
        TextField pad =
                field(
                        "pad-field",
                        "pad, pin, port or J1.3",
                        this::padNames,
                        model.recentPads(),
                        200);
        pad.textProperty().bindBidirectional(model.shown().padTextProperty());
        model.questions().shownProperty().addListener((p, old, now) -> enter(net, pad));
        net.setAccessibleText("Net to bring out");
        pad.setAccessibleText("Pad to bring it out on");
        ChoiceBox<Corner> corner = new ChoiceBox<>();
        corner.getItems().setAll(Corner.SLOW, Corner.FAST);
        corner.setConverter(new CornerText());
        corner.valueProperty().bindBidirectional(model.shown().cornerProperty());
        corner.setId("corner");
        corner.setMinWidth(Region.USE_PREF_SIZE);
        corner.setAccessibleText("Corner at which the way shall be the quickest");
        Button ask = Controls.button(actions.get("ask"));
        ask.setDefaultButton(true);
        WorkBar work = new WorkBar(model.jobs(), actions.get("stop"));
        HBox.setHgrow(work, Priority.SOMETIMES);
        HBox row =
                new HBox(
                        8,
                        new Label("Bring out"),
                        net,
                        new Label("on"),
                        pad,
                        new Label("quickest at the"),
                        corner,
                        new Label("corner"),
                        ask,
                        Controls.button(actions.get("new-question"), "+"),
                        work);
        row.setAlignment(Pos.CENTER_LEFT);
        row.getChildren().stream()
                .filter(n -> n instanceof Label)
                .forEach(n -> ((Label) n).setMinWidth(Region.USE_PREF_SIZE));
        HBox.setHgrow(net, Priority.SOMETIMES);
        return row;
    }

    /** Puts the caret where something is to be filled in, if anything is. */
    private static void enter(TextField net, TextField pad) {
        if (net.getText().isBlank()) {
            net.requestFocus();
        } else if (pad.getText().isBlank()) {
            pad.requestFocus();
        }
    }

    private static TextField field(
            String id, String prompt, Supplier<List<String>> names, Recent recent, double width) {
        TextField field = new CompletingField(names, () -> recent.items());
        field.setId(id);
        field.setPromptText(prompt);
        field.setPrefWidth(width);
        field.setMinWidth(110);
        field.setMaxWidth(460);
        return field;
    }

    private List<String> netNames() {
        return model.openedProperty().get().map(Opened::netNames).orElse(List.of());
    }

    private List<String> padNames() {
        return model.openedProperty().get().map(Opened::padNames).orElse(List.of());
    }

    private void show(Optional<Answer> answer) {
        cautions.getChildren().clear();
        word.getStyleClass().removeAll("open", "blocked", "no-way");
        word.setVisible(answer.isPresent());
        word.setManaged(answer.isPresent());
        boolean ready = answer.orElse(null) instanceof Answer.Open open && !Keeping.isThere(open);
        bringOut.setVisible(ready);
        bringOut.setManaged(ready);
        if (answer.isEmpty()) {
            sentence.setText(
                    model.openedProperty().get().isPresent()
                            ? "Name a net and a pad, then press Enter."
                            : "Open a design first: Ctrl+O, or drop its file on the window.");
            return;
        }
        Answer given = answer.get();
        word.setText(mark(given) + " " + AnswerText.word(given));
        word.getStyleClass().add(AnswerText.word(given).toLowerCase(Locale.ROOT).replace(' ', '-'));
        sentence.setText(AnswerText.explanation(given));
        for (String caution : given.cautions()) {
            Label line = new Label("⚠ " + caution);
            line.setWrapText(true);
            line.setMinHeight(Region.USE_PREF_SIZE);
            line.getStyleClass().add("caution");
            cautions.getChildren().add(line);
        }
    }

    /** A mark beside the word, so that neither colour nor reading is needed alone. */
    private static String mark(Answer answer) {
        if (answer instanceof Answer.Open) {
            return "→";
        }
        return answer instanceof Answer.Blocked ? "⊖" : "×";
    }

    private static final class CornerText extends StringConverter<Corner> {
        @Override
        public String toString(Corner corner) {
            return corner == null ? "" : corner.label();
        }

        @Override
        public Corner fromString(String text) {
            return Corner.valueOf(text.toUpperCase(Locale.ROOT));
        }
    }
}
