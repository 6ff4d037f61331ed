package padward.ui.model;

import java.util.function.Function;
import javafx.beans.property.Property;
import javafx.beans.property.SimpleObjectProperty;

/** A property of the shown question, bound in both directions to that of a question. */
final class ShownQuestionProperty<T> extends SimpleObjectProperty<T> {
    private final Function<QuestionModel, Property<T>> part;

    ShownQuestionProperty(QuestionModel first, Function<QuestionModel, Property<T>> part) {
        this.part = part;
        join(first);
    }

    /** Is no longer bound; keeps its value. */
    void leave(QuestionModel question) {
        unbindBidirectional(part.apply(question));
    }

    /** Takes the value of a question and is bound to it from now on. */
    void join(QuestionModel question) {
        bindBidirectional(part.apply(question));
    }
}
