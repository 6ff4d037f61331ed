package padward.format.form;

/** Two numbers: a step, a range, a place. */
public record Pair(int first, int second) {}
