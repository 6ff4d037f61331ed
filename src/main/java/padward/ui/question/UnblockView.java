package padward.ui.question;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.css.PseudoClass;
import javafx.geometry.Insets;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.RadioButton;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.scene.text.Text;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Obstacle;
import padward.breakout.ask.WhyBlocked;
import padward.breakout.text.AnswerText;
import padward.breakout.text.WhyText;
import padward.ui.control.Controls;
import padward.ui.map.MapModel;
import padward.ui.model.WindowModel;
import padward.unblock.move.Consequence;
import padward.unblock.weigh.Removal;

/**
 * The options to unblock a route, best first, with the consequences of each. Where the lists above
 * would have no room for rows, only their title is shown until they are unfolded.
 */
public final class UnblockView extends VBox {
    /** Space around the tag and text of an obstacle's line, pixels; see the style sheet. */
    private static final double LINE_INSETS = 40;

    private static final PseudoClass CHOSEN = PseudoClass.getPseudoClass("chosen");

    private final MapModel map;
    private final WindowModel model;
    private final VBox rows = new VBox(10);
    private final Label proof = new Label();
    private final Button title = new Button();
    private final ScrollPane scroll = new ScrollPane(rows);
    private Optional<Boolean> foldedByUser = Optional.empty();
    private boolean tight;
    private final Map<Button, Obstacle> lines = new HashMap<>();
    private final List<RadioButton> choices = new ArrayList<>();

    /** Follows the question that is shown; an obstacle chosen here is chosen on the map too. */
    public UnblockView(MapModel map) {
        this.map = map;
        this.model = map.explorer();
        setId("unblock-options");
        getStyleClass().add("side-part");
        setSpacing(6);
        setPadding(new Insets(10, 12, 10, 12));
        title.setId("unblock-fold");
        title.getStyleClass().addAll("side-title", "fold-title");
        title.setTooltip(new Tooltip("Folds or unfolds the options to unblock the route"));
        title.setOnAction(
                e -> {
                    foldedByUser = Optional.of(!isFolded());
                    showFolded();
                });
        proof.setWrapText(true);
        proof.setMinHeight(Region.USE_PREF_SIZE);
        proof.getStyleClass().add("faint");
        proof.setId("proof");
        scroll.setFitToWidth(true);
        scroll.getStyleClass().add("plain-scroll");
        scroll.setMinHeight(40);
        // As high as its rows while there is room for the lists below.
        scroll.prefViewportHeightProperty().bind(rows.heightProperty().add(4));
        VBox.setVgrow(scroll, Priority.ALWAYS);
        getChildren().addAll(title, proof, scroll);
        model.shown().answerProperty().addListener((p, old, now) -> show(now));
        model.shown().whatIfProperty().addListener((p, old, now) -> showIfUndecided());
        model.shown()
                .optionProperty()
                .addListener(
                        (p, old, now) -> {
                            if (now < choices.size()) {
                                choices.get(now).setSelected(true);
                            }
                        });
        map.chosenObstacleProperty().addListener((p, old, now) -> showChosen());
        show(model.shown().answerProperty().get());
    }

    /** Whether the lists above would have no room beside all options. */
    public void setTight(boolean isTight) {
        if (tight != isTight) {
            tight = isTight;
            showFolded();
        }
    }

    private boolean isFolded() {
        return foldedByUser.orElse(tight);
    }

    private void showFolded() {
        boolean folded = isFolded();
        title.setText(
                folded ? "▸ Options to unblock (" + choices.size() + ")" : "▾ Options to unblock");
        title.setAccessibleText(
                "Options to unblock, " + choices.size() + (folded ? ", folded" : ", unfolded"));
        for (Region part : List.of(proof, scroll)) {
            part.setVisible(!folded);
            part.setManaged(!folded);
        }
    }

    private void show(Optional<Answer> answer) {
        rows.getChildren().clear();
        lines.clear();
        choices.clear();
        showIfUndecided();
        if (!isBlocked(answer)) {
            return;
        }
        Answer.Blocked given = (Answer.Blocked) answer.get();
        WhyBlocked why = given.why().orElseThrow();
        String narrow = WhyText.oneOfThese(why.explanation());
        proof.setText(WhyText.proof(why.explanation()) + (narrow.isEmpty() ? "" : " " + narrow));
        ToggleGroup group = new ToggleGroup();
        List<WhyBlocked.Option> options = why.options();
        for (int i = 0; i < options.size(); i++) {
            rows.getChildren().add(row(given, options.get(i), i, group));
        }
        showFolded();
    }

    private static boolean isBlocked(Optional<Answer> answer) {
        return answer.orElse(null) instanceof Answer.Blocked b && b.why().isPresent();
    }

    /** While a what-if is open, its option is chosen. */
    private void showIfUndecided() {
        boolean undecided =
                isBlocked(model.shown().answerProperty().get())
                        && model.shown().whatIfProperty().get().isEmpty();
        setVisible(undecided);
        setManaged(undecided);
    }

    private Node row(
            Answer.Blocked blocked, WhyBlocked.Option option, int index, ToggleGroup group) {
        RadioButton choice =
                new RadioButton(
                        Controls.withUnits(
                                WhyText.option(option.option())
                                        + ": "
                                        + option.route().total().toText()));
        choice.setId("option-" + index);
        // Names may contain underscores, which do not mark access keys here.
        choice.setMnemonicParsing(false);
        choice.setToggleGroup(group);
        choice.setSelected(index == model.shown().optionProperty().get());
        choice.setWrapText(true);
        choice.setMinHeight(Region.USE_PREF_SIZE);
        choice.setOnAction(e -> model.shown().optionProperty().set(index));
        choices.add(choice);
        VBox box = new VBox(3, choice);
        List<Removal> removals = option.option().removals();
        for (int i = 0; i < removals.size(); i++) {
            Obstacle obstacle = option.obstacles().get(i);
            Button line = obstacle(blocked, obstacle, removals.get(i));
            line.setId("obstacle-" + index + "-" + i);
            line.setOnAction(
                    e -> {
                        choice.setSelected(true);
                        model.shown().optionProperty().set(index);
                        map.choose(obstacle);
                    });
            lines.put(line, obstacle);
            box.getChildren().add(line);
        }
        return box;
    }

    private void showChosen() {
        Optional<Obstacle> chosen = map.chosenObstacleProperty().get();
        lines.forEach(
                (line, obstacle) ->
                        line.pseudoClassStateChanged(
                                CHOSEN, chosen.filter(obstacle::equals).isPresent()));
    }

    /** An obstacle as a button that chooses it, also on the map and the strip map. */
    private Button obstacle(Answer.Blocked blocked, Obstacle obstacle, Removal removal) {
        String word = word(removal.consequence());
        String meaning = WhyText.consequence(blocked, removal).replaceFirst("^[\\w ]+: ", "");
        Label tag = new Label(mark(removal.consequence()) + " " + word);
        tag.getStyleClass().addAll("tag", word.replace(' ', '-'));
        tag.setMinWidth(Region.USE_PREF_SIZE);
        Text text =
                new Text(
                        Controls.withUnits(
                                AnswerText.obstacle(obstacle)
                                        + (removal.onEveryRoute() ? "; on every route" : "")
                                        + ". "
                                        + sentence(meaning)));
        text.getStyleClass().add("small");
        // A button asks for the height of its graphic without giving a width.
        text.wrappingWidthProperty()
                .bind(rows.widthProperty().subtract(tag.widthProperty()).subtract(LINE_INSETS));
        Button line = new Button();
        line.setGraphic(new HBox(8, tag, text));
        line.setMaxWidth(Double.MAX_VALUE);
        // Otherwise the line would never let the list become narrower.
        line.setMinWidth(0);
        line.getStyleClass().add("obstacle-line");
        line.setAccessibleText(tag.getText() + ", " + text.getText());
        line.setTooltip(new Tooltip("Shows it on the map and the strip map"));
        return line;
    }

    private static String sentence(String clause) {
        return Character.toUpperCase(clause.charAt(0)) + clause.substring(1) + ".";
    }

    private static String word(Consequence consequence) {
        if (consequence instanceof Consequence.Removable) {
            return "removable";
        }
        return consequence instanceof Consequence.Movable ? "movable" : "loses function";
    }

    /** A mark next to the word, so that nobody depends on the colours. */
    private static String mark(Consequence consequence) {
        if (consequence instanceof Consequence.Removable) {
            return "○";
        }
        return consequence instanceof Consequence.Movable ? "↷" : "⊖";
    }
}
