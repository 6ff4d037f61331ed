package padward.ui.watch;

import java.util.Optional;
import java.util.OptionalInt;
import javafx.application.Platform;
import javafx.beans.value.ObservableValue;
import javafx.geometry.Bounds;
import javafx.geometry.Point2D;
import javafx.scene.control.Label;
import javafx.scene.layout.Pane;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.scene.shape.Path;
import javafx.scene.shape.Rectangle;
import javafx.scene.text.Text;
import padward.base.BadInput;
import padward.ui.control.CompletingField;
import padward.ui.control.Controls;
import padward.ui.work.FaultText;

/**
 * A field for a condition: completes names as they are typed, marks the character at which a fault
 * stands, and says below what is expected there.
 */
final class ConditionField extends VBox {
    private static final String CHARACTER = "character ";
    private static final double HIGH = 3;
    private static final double LEAST = 4;
    private static final double BEHIND = 7;

    private final CompletingField field;
    private final Pane marks = new Pane();
    private final Rectangle mark = new Rectangle(0, HIGH);
    private final Label fault = Controls.text(" ", "small", "field-fault");
    private final ObservableValue<Optional<BadInput>> found;
    private final String purpose;
    private boolean following;

    /**
     * @param id id of the field; those of its parts begin with it
     * @param purpose what is stated there
     */
    ConditionField(
            String id, String purpose, NameWords names, ObservableValue<Optional<BadInput>> found) {
        this.found = found;
        this.purpose = purpose;
        field = new CompletingField(names::forCondition, ConditionField::isInWord);
        WatchForm.named(field, id, purpose);
        mark.getStyleClass().add("fault-mark");
        marks.setMouseTransparent(true);
        marks.getChildren().add(mark);
        mark.setManaged(false);
        fault.setId(id + "-fault");
        getChildren().addAll(new StackPane(field, marks), fault);
        found.addListener((p, old, now) -> show());
        field.widthProperty().addListener((p, old, now) -> place());
        field.textProperty().addListener((p, old, now) -> mark.setVisible(false));
        show();
    }

    private static boolean isInWord(String text, int at) {
        char c = text.charAt(at);
        return c == '\\' || NameWords.isInName(c) || at > 0 && text.charAt(at - 1) == '\\';
    }

    CompletingField field() {
        return field;
    }

    /** Puts the caret to the fault; false when there is none that stands at a character. */
    boolean goToFault() {
        OptionalInt at = at();
        at.ifPresent(
                i -> {
                    field.requestFocus();
                    field.positionCaret(Math.min(i, field.getLength()));
                });
        return at.isPresent();
    }

    private OptionalInt at() {
        return found.getValue()
                .map(BadInput::place)
                .filter(p -> p.startsWith(CHARACTER))
                .map(p -> OptionalInt.of(Integer.parseInt(p.substring(CHARACTER.length())) - 1))
                .orElse(OptionalInt.empty());
    }

    private void show() {
        fault.setText(found.getValue().map(ConditionField::text).orElse(" "));
        String told = fault.getText().strip();
        field.setAccessibleHelp(told.isEmpty() ? purpose : told);
        // The field's own text follows a little later.
        Platform.runLater(this::place);
    }

    /** A fault of a condition without the name of its option. */
    static String text(BadInput fault) {
        String where = fault.place().isEmpty() ? "" : "At " + fault.place() + ": ";
        String text = where + FaultText.needs(fault) + ".";
        return Character.toUpperCase(text.charAt(0)) + text.substring(1);
    }

    /** Marks the faulty character, wherever the field has scrolled its text to. */
    private void place() {
        Optional<Text> text = inner();
        mark.setVisible(at().isPresent() && text.isPresent());
        if (!mark.isVisible()) {
            return;
        }
        int length = text.get().getText().length();
        int from = Math.min(at().getAsInt(), length);
        // Behind the last character there is none to mark: the place after it is.
        int first = from == length ? Math.max(0, length - 1) : from;
        Bounds letter = new Path(text.get().rangeShape(first, first + 1)).getLayoutBounds();
        boolean behind = from == length;
        Point2D foot =
                marks.sceneToLocal(
                        text.get()
                                .localToScene(
                                        behind ? letter.getMaxX() + 1 : letter.getMinX(),
                                        letter.getMaxY()));
        mark.setX(foot.getX());
        mark.setY(foot.getY() - HIGH / 2);
        mark.setWidth(behind ? BEHIND : Math.max(LEAST, letter.getWidth()));
        marks.setClip(new Rectangle(field.getWidth(), field.getHeight()));
    }

    /** The text inside the field, once it is there. */
    private Optional<Text> inner() {
        // The prompt is such a text, too.
        Optional<Text> text =
                field.lookupAll(".text").stream()
                        .filter(Text.class::isInstance)
                        .map(Text.class::cast)
                        .filter(t -> t.getText().equals(field.getText()))
                        .findFirst();
        if (text.isPresent() && !following) {
            following = true;
            text.get().localToSceneTransformProperty().addListener((p, old, now) -> place());
        }
        return text;
    }
}
