package padward.ui.question;

import java.util.List;
import java.util.Locale;
import java.util.function.BiPredicate;
import java.util.function.Function;
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
import javafx.util.StringConverter;
import padward.design.Design;
import padward.design.PadNames;
import padward.fabric.delay.Corner;
import padward.ui.control.Actions;
import padward.ui.control.Choices;
import padward.ui.control.CompletingField;
import padward.ui.control.Controls;
import padward.ui.control.NamesOfDesign;
import padward.ui.design.NameRemark;
import padward.ui.design.OpenDesign;
import padward.ui.design.SearchableNames;
import padward.ui.model.RecentItems;
import padward.ui.model.WindowModel;

/** The question as a sentence with two fields. */
public final class QuestionRow extends HBox {
    /** The least at which the prompt is seen whole. */
    private static final double LEAST_WIDTH = 92;

    private static final double CORNER_WIDTH = 84;

    private final WindowModel model;

    /** Follows the question that is shown. */
    public QuestionRow(WindowModel model, Actions actions) {
        this.model = model;
        setId("question-row");
        getStyleClass().add("question-row");
        setSpacing(8);
        setPadding(new Insets(12, 16, 8, 16));
        setAlignment(Pos.CENTER_LEFT);
        TextField net =
                field(
                        "net-field",
                        "net name",
                        OpenDesign::netNames,
                        () -> known(model.recentNets(), (d, n) -> d.findNet(n).isPresent()),
                        300);
        net.textProperty().bindBidirectional(model.shown().netTextProperty());
        CompletingField pad =
                field(
                        "pad-field",
                        "pad or pin",
                        OpenDesign::padNames,
                        () -> known(model.recentPads(), (d, n) -> !PadNames.find(d, n).isEmpty()),
                        200);
        pad.textProperty().bindBidirectional(model.shown().padTextProperty());
        pad.setRemarks(
                name ->
                        model.openedProperty()
                                .get()
                                .map(opened -> NameRemark.ofPad(opened, name))
                                .orElse(""));
        model.questions().shownProperty().addListener((p, old, now) -> enter(net, pad));
        net.setAccessibleText("Net to bring out");
        pad.setAccessibleText("Pad to bring it out on");
        ChoiceBox<Corner> corner = Choices.box();
        corner.getItems().setAll(Corner.SLOW, Corner.FAST);
        corner.setConverter(new CornerText());
        corner.valueProperty().bindBidirectional(model.shown().cornerProperty());
        corner.setId("corner");
        corner.setMinWidth(Region.USE_PREF_SIZE);
        corner.prefWidthProperty().bind(model.look().sized(CORNER_WIDTH));
        corner.setAccessibleText("Corner at which the delay is minimised");
        Button ask = Controls.button(actions.get("ask"));
        ask.setDefaultButton(true);
        getChildren()
                .addAll(
                        new Label("Bring out"),
                        net,
                        new Label("on"),
                        pad,
                        new Label("shortest delay at the"),
                        corner,
                        new Label("corner"),
                        ask,
                        Controls.button(actions.get("new-question"), "+"));
        getChildren().stream()
                .filter(n -> n instanceof Label)
                .forEach(n -> ((Label) n).setMinWidth(Region.USE_PREF_SIZE));
        HBox.setHgrow(net, Priority.SOMETIMES);
    }

    /** Puts the caret into the first empty field, if there is one. */
    private static void enter(TextField net, TextField pad) {
        if (net.getText().isBlank()) {
            net.requestFocus();
        } else if (pad.getText().isBlank()) {
            pad.requestFocus();
        }
    }

    private CompletingField field(
            String id,
            String prompt,
            Function<OpenDesign, SearchableNames> names,
            Supplier<List<String>> recent,
            double width) {
        CompletingField field =
                new CompletingField(
                        new NamesOfDesign(
                                model.jobs().background(),
                                model.openedProperty()::get,
                                names,
                                recent));
        field.setId(id);
        field.setPromptText(prompt);
        field.setPrefWidth(width);
        field.minWidthProperty().bind(model.look().sized(LEAST_WIDTH));
        field.setMaxWidth(460);
        return field;
    }

    /** What was used with another design means nothing in this one. */
    private List<String> known(RecentItems recent, BiPredicate<Design, String> isName) {
        return model.openedProperty()
                .get()
                .map(OpenDesign::design)
                .map(d -> recent.items().stream().filter(n -> isName.test(d, n)).toList())
                .orElse(List.of());
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
