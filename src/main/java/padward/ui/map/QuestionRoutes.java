package padward.ui.map;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.beans.InvalidationListener;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.value.ObservableBooleanValue;
import padward.breakout.ask.Route;
import padward.ui.model.QuestionModel;
import padward.ui.model.QuestionsModel;
import padward.ui.paint.MarkedRoutes;
import padward.ui.paint.RouteMark;
import padward.ui.scene.MapOverlay;

/**
 * The routes of the open questions that are not shown, for the map: each keeps its mark as long as
 * its question is open.
 */
final class QuestionRoutes {
    private final QuestionsModel questions;
    private final ObservableBooleanValue wanted;
    private final ObjectProperty<Optional<MapOverlay>> overlay =
            new SimpleObjectProperty<>(Optional.empty());
    private final Map<QuestionModel, Integer> marks = new HashMap<>();
    private final InvalidationListener changed = o -> update();

    /**
     * @param wanted whether they are to be drawn
     */
    QuestionRoutes(QuestionsModel questions, ObservableBooleanValue wanted) {
        this.questions = questions;
        this.wanted = wanted;
        wanted.addListener((p, old, now) -> update());
        questions.shownProperty().addListener((p, old, now) -> update());
        questions.all().addListener((InvalidationListener) o -> follow());
        follow();
    }

    /** What is painted; empty when there is no other route, or none is wanted. */
    ReadOnlyObjectProperty<Optional<MapOverlay>> overlayProperty() {
        return overlay;
    }

    private void follow() {
        for (QuestionModel gone : List.copyOf(marks.keySet())) {
            if (!questions.all().contains(gone)) {
                gone.answerProperty().removeListener(changed);
                gone.whatIfProperty().removeListener(changed);
                marks.remove(gone);
            }
        }
        for (QuestionModel question : questions.all()) {
            if (!marks.containsKey(question)) {
                int free = 0;
                while (marks.containsValue(free)) {
                    free++;
                }
                marks.put(question, free);
                question.answerProperty().addListener(changed);
                question.whatIfProperty().addListener(changed);
            }
        }
        update();
    }

    private void update() {
        List<MarkedRoutes.Line> lines = new ArrayList<>();
        for (QuestionModel question : questions.all()) {
            Optional<Route> route = question.findRoute();
            if (wanted.get() && question != questions.shownProperty().get() && route.isPresent()) {
                String name = question.title();
                RouteMark mark = new RouteMark(marks.getOrDefault(question, 0));
                lines.add(
                        question.isBlocked()
                                ? new MarkedRoutes.Line(
                                        route.get(), name, mark, question.findObstacles())
                                : new MarkedRoutes.Line(route.get(), name, mark));
            }
        }
        if (lines.isEmpty() ? overlay.get().isPresent() : true) {
            overlay.set(lines.isEmpty() ? Optional.empty() : Optional.of(new MarkedRoutes(lines)));
        }
    }
}
