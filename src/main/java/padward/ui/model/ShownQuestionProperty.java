package padward.ui.model;

import java.util.function.Function;
import javafx.beans.property.Property;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;

/**
 * A property of the shown question, bound in both directions; when another question is shown, it is
 * bound to the property of that one.
 */
final class ShownQuestionProperty<T> extends SimpleObjectProperty<T> {
    ShownQuestionProperty(
            ReadOnlyObjectProperty<QuestionModel> shown,
            Function<QuestionModel, Property<T>> part) {
        bindBidirectional(part.apply(shown.get()));
        shown.addListener(
                (p, old, now) -> {
                    unbindBidirectional(part.apply(old));
                    bindBidirectional(part.apply(now));
                });
    }
}
