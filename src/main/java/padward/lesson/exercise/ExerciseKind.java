package padward.lesson.exercise;

/** What exercises ask. */
public enum ExerciseKind {
    /** Which site must be freed before a net can reach a pad. */
    SITE("site", "Which site must be freed?"),
    /** Which of some pads is the cheapest for a net. */
    PAD("pad", "Which pad is the cheapest?"),
    /** How late a net's signal is outside a pad. */
    DELAY("delay", "Estimate the delay.");

    private final String label;
    private final String title;

    ExerciseKind(String label, String title) {
        this.label = label;
        this.title = title;
    }

    /** The word that options and files use. */
    public String label() {
        return label;
    }

    /** What is asked. */
    public String title() {
        return title;
    }
}
