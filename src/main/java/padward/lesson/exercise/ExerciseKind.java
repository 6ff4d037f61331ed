package padward.lesson.exercise;

/** What exercises ask. */
public enum ExerciseKind {
    /** Which site must be empty before a net can reach a pad. */
    SITE("site", "Which site must be empty?"),
    /** Which of several pads is the cheapest for a net. */
    PAD("pad", "Which pad is the cheapest?"),
    /** How late a net's signal arrives at a pin. */
    DELAY("delay", "Estimate the delay.");

    private final String label;
    private final String title;

    ExerciseKind(String label, String title) {
        this.label = label;
        this.title = title;
    }

    /** The word on the command line and in files. */
    public String label() {
        return label;
    }

    /** The question in general. */
    public String title() {
        return title;
    }
}
