package padward.ui.play;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import padward.base.Progress;
import padward.breakout.Answer;
import padward.breakout.Question;
import padward.clearance.SearchLimits;
import padward.fabric.Fabric;
import padward.lesson.PlayedLabels;
import padward.lesson.PlayedQuestion;
import padward.lesson.Recorder;
import padward.lesson.SearchMethod;

/**
 * A question's searches, recorded and ready to be played.
 *
 * @param question the question
 * @param searches by method its searches, in their order
 * @param parts what each of them searched, in a few words
 * @param labels the search for the fewest obstacles, of a blocked question
 */
record PlayedSearches(
        Question question,
        Map<SearchMethod, List<SearchPlayer>> searches,
        List<String> parts,
        Optional<LabelPlayer> labels) {
    /** Answers a question again, and records how. */
    static PlayedSearches of(Answer answer, Progress progress) {
        Question question = answer.question();
        Fabric fabric = question.design().fabric();
        Map<SearchMethod, List<SearchPlayer>> searches = new EnumMap<>(SearchMethod.class);
        List<String> parts = new ArrayList<>();
        for (SearchMethod method : SearchMethod.values()) {
            PlayedQuestion played =
                    PlayedQuestion.of(question, method, Recorder.USUAL_STEPS, progress);
            searches.put(
                    method, played.parts().stream().map(p -> new SearchPlayer(fabric, p)).toList());
            if (method == SearchMethod.A_STAR) {
                played.parts().forEach(p -> parts.add(p.what()));
            }
        }
        Optional<LabelPlayer> labels =
                answer instanceof Answer.Blocked blocked
                        ? Optional.of(
                                new LabelPlayer(
                                        fabric,
                                        PlayedLabels.of(
                                                blocked,
                                                SearchLimits.USUAL,
                                                Recorder.USUAL_STEPS,
                                                progress)))
                        : Optional.empty();
        return new PlayedSearches(question, searches, parts, labels);
    }
}
