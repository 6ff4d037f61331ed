package padward.lesson.recording;

/** The search with which a question is played. */
public enum PlayedSearch {
    /** A* with the best estimate known (Hart, Nilsson, Raphael 1968). */
    A_STAR("A*"),
    /** Dijkstra's search (Numer. Math. 1, 1959): A* without an estimate. */
    DIJKSTRA("Dijkstra"),
    /**
     * The search that answers questions: A*, in turns of growing length with a search backwards
     * from the pad.
     */
    AS_ASKED("as Padward runs it");

    private final String label;

    PlayedSearch(String label) {
        this.label = label;
    }

    /** Its name on screens. */
    public String label() {
        return label;
    }
}
