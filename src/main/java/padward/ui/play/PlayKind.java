package padward.ui.play;

import java.util.Optional;
import padward.lesson.recording.SearchMethod;

/** What can be played on the map. */
public enum PlayKind {
    A_STAR("A*, with its estimate", Optional.of(SearchMethod.A_STAR)),
    DIJKSTRA("Dijkstra, without", Optional.of(SearchMethod.DIJKSTRA)),
    AS_ASKED("The search as Padward runs it", Optional.of(SearchMethod.AS_ASKED)),
    LABELS("Labels: the fewest obstacles", Optional.empty()),
    ROUNDS("Rounds: several nets at once", Optional.empty());

    private final String label;
    private final Optional<SearchMethod> method;

    PlayKind(String label, Optional<SearchMethod> method) {
        this.label = label;
        this.method = method;
    }

    /** By which search, when it is one. */
    Optional<SearchMethod> method() {
        return method;
    }

    @Override
    public String toString() {
        return label;
    }
}
