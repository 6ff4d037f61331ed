package padward.ui.question;

import java.util.List;
import java.util.Optional;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.AnswerKind;
import padward.breakout.text.AnswerText;
import padward.ui.control.Actions;
import padward.ui.control.CautionLines;
import padward.ui.control.Controls;
import padward.ui.model.WindowModel;

/** The answer as a sentence, what can be done with it, and the cautions under it. */
public final class AnswerBar extends VBox {
    private static final double TIP_WIDTH = 560;
    private static final double FADED = 0.55;

    private final WindowModel model;
    private final Label word = new Label();
    private final Label sentence = new Label();
    private final Label edited = new Label();
    private final VBox cautions = new VBox(2);
    private final Button bringOut;
    private final Button tryIt;
    private final Button anotherOption;
    private final Button anotherPad;
    private final Tooltip whole = new Tooltip();

    /** Follows the question that is shown; its buttons do what the menus do. */
    public AnswerBar(WindowModel model, Actions actions) {
        this.model = model;
        this.bringOut = Controls.button(actions.get("try"), "Bring it out");
        this.tryIt = Controls.button(actions.get("try"));
        this.anotherOption = Controls.button(actions.get("another-option"));
        this.anotherPad = Controls.button(actions.get("another-pad"));
        setId("answer-bar");
        getStyleClass().add("answer-bar");
        setPadding(new Insets(0, 16, 10, 16));
        setSpacing(8);
        word.setId("answer-word");
        word.getStyleClass().add("answer-word");
        word.setMinWidth(Region.USE_PREF_SIZE);
        sentence.setId("answer-sentence");
        sentence.setWrapText(true);
        sentence.setMinHeight(Region.USE_PREF_SIZE);
        HBox.setHgrow(sentence, Priority.ALWAYS);
        bringOut.setId("bring-out-button");
        sentence.setMaxWidth(Double.MAX_VALUE);
        HBox buttons = new HBox(6, bringOut, tryIt, anotherOption, anotherPad);
        buttons.getStyleClass().add("answer-buttons");
        buttons.setMinWidth(Region.USE_PREF_SIZE);
        HBox answerRow = new HBox(10, word, sentence, buttons);
        answerRow.setAlignment(Pos.TOP_LEFT);
        whole.setWrapText(true);
        whole.setMaxWidth(TIP_WIDTH);
        whole.textProperty().bind(sentence.textProperty());
        cautions.setId("cautions");
        edited.setId("edited-question");
        edited.getStyleClass().add("caution");
        edited.setWrapText(true);
        edited.setMinHeight(Region.USE_PREF_SIZE);
        getChildren().addAll(new OfferBar(model, actions), edited, answerRow, cautions);
        model.shown().answerProperty().addListener((p, old, now) -> show(now));
        model.openedProperty()
                .addListener((p, old, now) -> show(model.shown().answerProperty().get()));
        model.shown().asAskedProperty().addListener((p, old, now) -> showAsAsked());
        model.shown()
                .surveyProperty()
                .addListener((p, old, now) -> show(model.shown().answerProperty().get()));
        model.shown()
                .whatIfProperty()
                .addListener((p, old, now) -> show(model.shown().answerProperty().get()));
        show(model.shown().answerProperty().get());
    }

    /** An answer to another question than that in the fields is grey and cannot be tried. */
    private void showAsAsked() {
        boolean other =
                model.shown().answerProperty().get().isPresent()
                        && !model.shown().asAskedProperty().getValue();
        shown(edited, other);
        edited.setText(
                "This answers "
                        + model.shown().question().toAskedText()
                        + ". You have changed the question: press Enter to ask it.");
        for (Node node : List.of(word, sentence, cautions)) {
            node.setOpacity(other ? FADED : 1);
        }
    }

    private void show(Optional<Answer> answer) {
        showAsAsked();
        cautions.getChildren().clear();
        word.getStyleClass().removeAll("open", "takes-port", "blocked", "no-route");
        word.setVisible(answer.isPresent());
        word.setManaged(answer.isPresent());
        boolean ready =
                answer.orElse(null) instanceof Answer.FreeRoute open && !AnswerEdits.isThere(open);
        boolean inWhatIf = model.shown().whatIfProperty().get().isPresent();
        boolean blocked = answer.orElse(null) instanceof Answer.Blocked;
        shown(bringOut, ready && !inWhatIf);
        shown(tryIt, blocked && !inWhatIf);
        shown(anotherOption, blocked && !inWhatIf && model.shown().options().size() > 1);
        shown(anotherPad, answer.isPresent() && !ready && !inWhatIf);
        // The bar of a what-if shows both answers, so one line is enough for this one.
        sentence.setWrapText(!inWhatIf);
        sentence.setTooltip(inWhatIf ? whole : null);
        if (answer.isEmpty()) {
            sentence.setText(withoutAnswer());
            return;
        }
        Answer given = answer.get();
        word.setText(mark(given) + " " + AnswerText.word(given));
        word.getStyleClass().add(AnswerKind.of(given).label());
        sentence.setText(AnswerText.explanation(given));
        cautions.getChildren().setAll(CautionLines.of(given.cautions()));
    }

    private String withoutAnswer() {
        if (model.openedProperty().get().isEmpty()) {
            return "Open a design first: Ctrl+O, or drop its file on the window.";
        }
        return model.shown().question().isForAllPads()
                ? "All pads for "
                        + model.shown().question().toAskedText()
                        + " are listed under Routes out, the best first. Choose one there."
                : "Type a net and a pad, then press Enter. A net alone asks for all pads.";
    }

    private static void shown(Node node, boolean on) {
        node.setVisible(on);
        node.setManaged(on);
    }

    /** A mark next to the word, so that nobody depends on the colour. */
    private static String mark(Answer answer) {
        return switch (AnswerKind.of(answer)) {
            case OPEN -> "→";
            case TAKES_PORT -> "⇥";
            case BLOCKED -> "⊖";
            case NO_ROUTE -> "×";
        };
    }
}
