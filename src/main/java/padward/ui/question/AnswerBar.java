package padward.ui.question;

import java.util.List;
import java.util.Optional;
import javafx.application.Platform;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import padward.breakout.ask.Answer;
import padward.breakout.ask.AnswerEdits;
import padward.breakout.ask.AnswerKind;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.survey.Survey;
import padward.breakout.text.AnswerText;
import padward.breakout.text.Headline;
import padward.fabric.Pad;
import padward.ui.control.Actions;
import padward.ui.control.CautionLines;
import padward.ui.control.Controls;
import padward.ui.control.Focus;
import padward.ui.control.LinkedText;
import padward.ui.control.ThingMenu;
import padward.ui.design.OpenDesign;
import padward.ui.model.QuestionModel;
import padward.ui.model.WindowModel;

/**
 * The answer in one line with what can be done, and one line under it; both always have their
 * place, so that the map stays where it is. Dangers and, on request, the reasons follow.
 */
public final class AnswerBar extends VBox {
    private static final double TIP_WIDTH = 560;
    private static final double FADED = 0.55;

    private final WindowModel model;
    private final Label word = new Label();
    private final Label headline = Controls.text("");
    private final Label quiet = new Label();
    private final Tooltip quietTip = new Tooltip();
    private final VBox cautions = new VBox(2);
    private final VBox reasons = new VBox(2);
    private final DelayedNotice notice = new DelayedNotice();
    private final ToggleButton why;
    private final Button bringOut;
    private final Button tryIt;
    private final Button anotherOption;
    private final Button anotherPad;

    /** Follows the question that is shown; its buttons do what the menus do. */
    public AnswerBar(WindowModel model, Actions actions) {
        this.model = model;
        this.why = Controls.toggle(actions.get("reasons"), model.look().reasonsProperty());
        this.bringOut = Controls.button(actions.get("try"), "Bring it out");
        this.tryIt = Controls.button(actions.get("try"));
        this.anotherOption = Controls.button(actions.get("another-option"));
        this.anotherPad = Controls.button(actions.get("another-pad"));
        setId("answer-bar");
        getStyleClass().add("answer-bar");
        setPadding(new Insets(0, 16, 8, 16));
        setSpacing(4);
        word.setId("answer-word");
        word.getStyleClass().add("answer-word");
        word.setMinWidth(Region.USE_PREF_SIZE);
        headline.setId("answer-headline");
        headline.setMaxWidth(Double.MAX_VALUE);
        HBox.setHgrow(headline, Priority.ALWAYS);
        bringOut.setId("bring-out-button");
        Focus.handOver(tryIt, "#what-if-accept", "#keep-button");
        Focus.handOver(bringOut, "#what-if-accept", "#keep-button");
        HBox buttons = new HBox(6, why, bringOut, tryIt, anotherOption, anotherPad);
        buttons.getStyleClass().add("answer-buttons");
        buttons.setMinWidth(Region.USE_PREF_SIZE);
        HBox answerRow = new HBox(10, word, headline, buttons);
        answerRow.getStyleClass().add("answer-row");
        answerRow.setAlignment(Pos.TOP_LEFT);
        quiet.setId("answer-quiet");
        quietTip.setWrapText(true);
        quietTip.setMaxWidth(TIP_WIDTH);
        cautions.setId("cautions");
        reasons.setId("answer-reasons");
        getChildren().addAll(answerRow, quiet, cautions, reasons, new OfferBar(model, actions));
        model.shown().answerProperty().addListener((p, old, now) -> show(now));
        model.openedProperty().addListener((p, old, now) -> showAgain());
        model.shown().asAskedProperty().addListener((p, old, now) -> showQuiet());
        model.shown().surveyProperty().addListener((p, old, now) -> showAgain());
        model.shown().whatIfProperty().addListener((p, old, now) -> showAgain());
        model.shown().scopeProperty().addListener((p, old, now) -> showAgain());
        model.shown().optionProperty().addListener((p, old, now) -> showAgain());
        model.look().reasonsProperty().addListener((p, old, now) -> showAgain());
        notice.overProperty().addListener((p, old, now) -> showAgain());
        showAgain();
    }

    private void showAgain() {
        show(model.shown().answerProperty().get());
    }

    private void show(Optional<Answer> answer) {
        word.getStyleClass().removeAll("open", "takes-port", "blocked", "no-route");
        shown(word, answer.isPresent());
        boolean ready =
                answer.orElse(null) instanceof Answer.FreeRoute open && !AnswerEdits.isThere(open);
        boolean inWhatIf = model.shown().whatIfProperty().get().isPresent();
        boolean blocked = answer.orElse(null) instanceof Answer.Blocked;
        if (inWhatIf && (why.isFocused() || tryIt.isFocused() || bringOut.isFocused())) {
            Platform.runLater(this::goOnWithWhatIf);
        }
        shown(why, answer.isPresent());
        shown(bringOut, ready && !inWhatIf);
        shown(tryIt, blocked && !inWhatIf);
        shown(anotherOption, blocked && !inWhatIf && model.shown().options().size() > 1);
        shown(anotherPad, answer.isPresent() && !ready && !inWhatIf);
        notice.follow(answer.isEmpty() && isSurveying());
        headline.setText(
                Controls.withUnits(answer.map(this::headline).orElseGet(this::withoutAnswer)));
        cautions.getChildren().clear();
        answer.ifPresent(
                given -> {
                    word.setText(mark(given) + " " + AnswerText.word(given));
                    word.getStyleClass().add(AnswerKind.of(given).label());
                    cautions.getChildren().setAll(CautionLines.loud(given.cautions()));
                });
        shown(cautions, !cautions.getChildren().isEmpty());
        showReasons(answer);
        showQuiet();
        headline.setContextMenu(answer.map(this::menu).orElse(null));
    }

    /** Whoever has tried it with the keyboard can decide at once. */
    private void goOnWithWhatIf() {
        Focus.successor(tryIt, getScene()).ifPresent(Node::requestFocus);
    }

    private String headline(Answer answer) {
        Optional<WhyBlocked.Option> chosen = model.shown().chosenOption();
        return answer instanceof Answer.Blocked blocked && chosen.isPresent()
                ? Headline.of(blocked, chosen.get())
                : Headline.of(answer);
    }

    private ContextMenu menu(Answer answer) {
        return new ContextMenu(
                ThingMenu.item(
                        "Copy the answer", () -> ThingMenu.copy(AnswerText.sentence(answer))));
    }

    private void showReasons(Optional<Answer> answer) {
        reasons.getChildren().clear();
        if (answer.isPresent() && model.look().reasonsProperty().get()) {
            for (String reason : AnswerText.reasons(answer.get())) {
                reasons.getChildren().add(new LinkedText(model, reason));
            }
        }
        shown(reasons, !reasons.getChildren().isEmpty());
    }

    /**
     * The line under the answer: that it is to another question than that in the fields, and grey
     * then; or else what belongs to every answer.
     */
    private void showQuiet() {
        Optional<Answer> answer = model.shown().answerProperty().get();
        boolean other = answer.isPresent() && !model.shown().asAskedProperty().getValue();
        quiet.getStyleClass().removeAll("stale", "faint", "small");
        if (other) {
            quiet.setText(
                    "This answers "
                            + model.shown().question().toAskedText()
                            + ". You have changed the question: press Enter to ask it.");
            quiet.getStyleClass().addAll("stale", "small");
        } else {
            quiet.setText(answer.map(a -> CautionLines.quiet(a.cautions())).orElse(""));
            quiet.getStyleClass().addAll("faint", "small");
        }
        quiet.setWrapText(model.look().reasonsProperty().get());
        quietTip.setText(quiet.getText());
        quiet.setTooltip(quiet.getText().isEmpty() ? null : quietTip);
        for (Node node : List.of(word, headline, cautions, reasons)) {
            node.setOpacity(other ? FADED : 1);
        }
    }

    private String withoutAnswer() {
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            return "Open a design first: Ctrl+O, or drop its file on the window.";
        }
        QuestionModel.Scope scope = model.shown().scopeProperty().getValue();
        return switch (scope.about()) {
            case ONE_PAD ->
                    "Type a net and a pad, then press Enter. A net alone asks for all pads, a pad"
                            + " alone for all nets.";
            case ANY_PAD ->
                    model.shown()
                            .surveyProperty()
                            .get()
                            .map(s -> Headline.ofAny(asked(s, scope.pads())))
                            .orElseGet(this::meanwhile);
            case ANY_NET ->
                    "The list Nets says which nets reach "
                            + named(opened.get(), scope.pads())
                            + ". Choose one there.";
        };
    }

    private boolean isSurveying() {
        return model.openedProperty().get().isPresent()
                && model.shown().scopeProperty().getValue().about() == QuestionModel.About.ANY_PAD
                && model.shown().surveyProperty().get().isEmpty();
    }

    /** A survey is often made at once; what would flash is not said. */
    private String meanwhile() {
        return notice.overProperty().get() ? "Surveying the pads …" : "";
    }

    /** The pad that the list of nets is about. */
    private static String named(OpenDesign opened, List<Integer> pads) {
        List<Pad> all = opened.design().fabric().pads();
        // Another design may be open a moment before the question is cleared.
        return pads.get(0) < all.size() ? "pad " + all.get(pads.get(0)).name() : "the pad";
    }

    /** The answers for some pads; for all where none are named. */
    private static List<Answer> asked(Survey survey, List<Integer> pads) {
        return survey.answers().stream()
                .filter(a -> pads.isEmpty() || pads.contains(a.question().pad()))
                .toList();
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
