package padward.ui.play;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import padward.base.Counts;
import padward.base.Progress;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Question;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.Fabric;
import padward.lesson.recording.PlayedSearch;
import padward.lesson.recording.RecordedLabels;
import padward.lesson.recording.RecordedQuestion;
import padward.lesson.recording.Recorder;
import padward.unblock.why.SearchLimits;

/**
 * The recorded searches of a question, ready to be played.
 *
 * @param question the question
 * @param searches the searches by method, in order
 * @param parts what each of them searched, in a few words
 * @param labels the search for the fewest obstacles, if the question is blocked
 */
record PlayedSearches(
        Question question,
        Map<PlayedSearch, List<SearchPlayer>> searches,
        List<String> parts,
        Optional<LabelSearchPlayer> labels) {
    /** Answers a question again and records the searches. */
    static PlayedSearches of(Answer answer, Progress progress) {
        Question question = answer.question();
        Fabric fabric = question.design().fabric();
        Map<PlayedSearch, List<SearchPlayer>> searches = new EnumMap<>(PlayedSearch.class);
        List<String> parts = new ArrayList<>();
        for (PlayedSearch method : PlayedSearch.values()) {
            RecordedQuestion played =
                    RecordedQuestion.of(question, method, Recorder.DEFAULT_STEPS, progress);
            searches.put(
                    method, played.parts().stream().map(p -> new SearchPlayer(fabric, p)).toList());
            if (method == PlayedSearch.A_STAR) {
                played.parts().forEach(p -> parts.add(p.what()));
            }
        }
        Optional<LabelSearchPlayer> labels =
                answer instanceof Answer.Blocked blocked
                        ? Optional.of(
                                new LabelSearchPlayer(
                                        fabric,
                                        RecordedLabels.of(
                                                blocked,
                                                SearchLimits.USUAL,
                                                Recorder.DEFAULT_STEPS,
                                                progress)))
                        : Optional.empty();
        return new PlayedSearches(question, searches, parts, labels);
    }

    /** The search of a method in a part; its last one if it has fewer. */
    Optional<SearchPlayer> search(PlayedSearch method, int part) {
        return Optional.ofNullable(searches.get(method))
                .filter(all -> !all.isEmpty())
                .map(all -> all.get(Math.min(part, all.size() - 1)));
    }

    /** The moment at which a search first touches a site that something else uses. */
    OptionalInt firstOccupiedSite(SearchPlayer search) {
        Design design = question.design();
        return search.first(
                v ->
                        design.fabric().siteOf(v) != Fabric.NOTHING
                                && design.occupancy().isOccupied(v)
                                && !isOwn(v));
    }

    /** The search starts on the net itself, which does not block it. */
    private boolean isOwn(int vertex) {
        Net net = question.net();
        Fabric fabric = question.design().fabric();
        return net.route().placeOf(vertex) != Fabric.NOTHING
                || fabric.siteOf(net.route().root()) == fabric.siteOf(vertex);
    }

    /**
     * How many vertices fewer A* settles than Dijkstra in a part, as a sentence; empty without
     * both.
     */
    String savedText(int part) {
        Optional<SearchPlayer> star = search(PlayedSearch.A_STAR, part);
        Optional<SearchPlayer> plain = search(PlayedSearch.DIJKSTRA, part);
        if (star.isEmpty() || plain.isEmpty()) {
            return "";
        }
        int with = star.get().replay().recording().outcome().settled();
        int without = plain.get().replay().recording().outcome().settled();
        if (with >= without) {
            return "Here the estimate saves nothing: both searches settle "
                    + (with == without ? "" : "about ")
                    + Counts.text(without)
                    + " vertices.";
        }
        return String.format(
                Locale.ROOT,
                "The estimate saves %,d of %,d settled vertices (%.1f %%).",
                without - with,
                without,
                100.0 * (without - with) / without);
    }
}
