package padward.lesson.exercise;

/** How hard an exercise is. */
public enum Difficulty {
    /** Few choices, and everything told that it takes. */
    EASY("easy", 3, 0.02),
    /** More choices; something has to be known or looked up. */
    MEDIUM("medium", 4, 0.10),
    /** Many choices close to the right one; little is told. */
    HARD("hard", 6, 0.20);

    private final String label;
    private final int choices;
    private final double tolerance;

    Difficulty(String label, int choices, double tolerance) {
        this.label = label;
        this.choices = choices;
        this.tolerance = tolerance;
    }

    /** The word that options use. */
    public String label() {
        return label;
    }

    /** How many choices there are. */
    public int choices() {
        return choices;
    }

    /** How far an estimate may be off, as a share of the truth. */
    public double tolerance() {
        return tolerance;
    }
}
