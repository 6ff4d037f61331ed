package padward.lesson.recording;

/** By which search a question is played. */
public enum SearchMethod {
    /** A* with the best estimate known (Hart, Nilsson, Raphael 1968). */
    A_STAR("A*"),
    /** Dijkstra's search (Numer. Math. 1, 1959): A* that estimates nothing. */
    DIJKSTRA("Dijkstra"),
    /** As answers are found: A* in runs of growing length, which also looks back from the pad. */
    AS_ASKED("as Padward asks");

    private final String label;

    SearchMethod(String label) {
        this.label = label;
    }

    /** Its name on screens. */
    public String label() {
        return label;
    }
}
