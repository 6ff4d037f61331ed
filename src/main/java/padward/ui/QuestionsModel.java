package padward.ui;

import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;

/** The questions that are open, at least one, and which of them is shown. */
final class QuestionsModel {
    private final Supplier<Optional<Opened>> opened;
    private final Jobs jobs;
    private final ObservableList<QuestionModel> all = FXCollections.observableArrayList();

    /** Held here, since it hears of changes only as long as somebody holds it. */
    private final ObservableList<QuestionModel> allView =
            FXCollections.unmodifiableObservableList(all);

    private final ObjectProperty<QuestionModel> shown = new SimpleObjectProperty<>();

    QuestionsModel(Supplier<Optional<Opened>> opened, Jobs jobs) {
        this.opened = opened;
        this.jobs = jobs;
        all.add(new QuestionModel(opened, jobs));
        shown.set(all.get(0));
    }

    /** All that are open, in the order of their tabs. */
    ObservableList<QuestionModel> all() {
        return allView;
    }

    /** The one that is shown. */
    ReadOnlyObjectProperty<QuestionModel> shownProperty() {
        return shown;
    }

    /** Forgets them all but an empty one, for another design. */
    void startAfresh() {
        all.forEach(QuestionModel::clear);
        QuestionModel first = all.get(0);
        shown.set(first);
        all.retainAll(List.of(first));
    }

    /** Asks all of them again, one after the other, the one that is shown first. */
    void askAgain() {
        QuestionModel first = shown.get();
        List<QuestionModel> others = all.stream().filter(q -> q != first).toList();
        first.askAgain(() -> askAgain(others));
    }

    private static void askAgain(List<QuestionModel> rest) {
        if (!rest.isEmpty()) {
            rest.get(0).askAgain(() -> askAgain(rest.subList(1, rest.size())));
        }
    }
}
