package padward.lesson.exercise;

/** How hard an exercise is. */
public enum Difficulty {
    /** Few choices, and all the facts needed. */
    EASY("easy", 3, 0.02),
    /** More choices; some facts have to be known or looked up. */
    MEDIUM("medium", 4, 0.10),
    /** Many choices close to the right one, and few facts. */
    HARD("hard", 6, 0.20);

    private final String label;
    private final int choices;
    private final double tolerance;

    Difficulty(String label, int choices, double tolerance) {
        this.label = label;
        this.choices = choices;
        this.tolerance = tolerance;
    }

    /** The word on the command line and in the window. */
    public String label() {
        return label;
    }

    /** Number of choices. */
    public int choices() {
        return choices;
    }

    /** How far an estimate may be off, as a share of the true delay. */
    public double tolerance() {
        return tolerance;
    }
}
