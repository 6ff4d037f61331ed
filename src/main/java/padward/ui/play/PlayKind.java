package padward.ui.play;

import java.util.Optional;
import padward.lesson.recording.PlayedSearch;

/** What can be played on the map. */
public enum PlayKind {
    A_STAR("A* (with estimate)", Optional.of(PlayedSearch.A_STAR)),
    DIJKSTRA("Dijkstra (no estimate)", Optional.of(PlayedSearch.DIJKSTRA)),
    AS_ASKED("The search as Padward runs it", Optional.of(PlayedSearch.AS_ASKED)),
    LABELS("Labels: the fewest obstacles", Optional.empty()),
    ROUNDS("Rounds: several nets at once", Optional.empty());

    private final String label;
    private final Optional<PlayedSearch> method;

    PlayKind(String label, Optional<PlayedSearch> method) {
        this.label = label;
        this.method = method;
    }

    /** The search method; empty for what is not one search. */
    Optional<PlayedSearch> method() {
        return method;
    }

    @Override
    public String toString() {
        return label;
    }
}
