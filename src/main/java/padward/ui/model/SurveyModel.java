package padward.ui.model;

import java.util.Optional;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleObjectProperty;
import padward.breakout.ask.Question;
import padward.breakout.survey.Survey;
import padward.route.search.SearchEngineKind;
import padward.ui.work.JobSlot;

/** The survey of the net of the last question, made while its answer is shown. */
final class SurveyModel {
    private final JobSlot job;
    private final ObjectProperty<Optional<Survey>> survey =
            new SimpleObjectProperty<>(Optional.empty());

    SurveyModel(JobSlot job) {
        this.job = job;
    }

    /** Another version of the design may share the net with this one, so both are compared. */
    private boolean isAbout(Question question) {
        return survey.get()
                .filter(s -> s.net() == question.net() && s.corner() == question.corner())
                .filter(
                        s ->
                                s.answers().stream()
                                        .allMatch(a -> a.question().design() == question.design()))
                .isPresent();
    }

    /** Cancels a survey that is not about the net of this question. */
    void cancelUnlessFor(Question question) {
        if (!isAbout(question)) {
            job.cancel();
        }
    }

    /** Surveys the net of a question, unless that has been done. */
    void survey(Question question) {
        if (isAbout(question)) {
            return;
        }
        survey.set(Optional.empty());
        job.start(
                "Surveying all pads",
                progress ->
                        Survey.of(
                                question.design(),
                                question.net(),
                                question.corner(),
                                SearchEngineKind.OWN,
                                progress),
                result -> survey.set(Optional.of(result)));
    }

    /** Whether there is a survey, or one is being made. */
    boolean isBegun() {
        return survey.get().isPresent() || job.busyProperty().get();
    }

    /** Clears the survey too. */
    void clear() {
        job.cancel();
        survey.set(Optional.empty());
    }

    /** All pads for the net, once they are surveyed. */
    ObjectProperty<Optional<Survey>> surveyProperty() {
        return survey;
    }
}
