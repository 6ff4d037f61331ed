package padward.fabric.pattern;

/** A side of a switch box. */
public enum Side {
    /** Towards lower columns. */
    LEFT,
    /** Towards higher rows. */
    TOP,
    /** Towards higher columns. */
    RIGHT,
    /** Towards lower rows. */
    BOTTOM;

    /** The side across. */
    public Side opposite() {
        return values()[(ordinal() + 2) % 4];
    }

    /**
     * The side on which a wire lies that leaves by a step.
     *
     * @throws IllegalArgumentException when the step is not along one axis
     */
    public static Side ofStep(int dx, int dy) {
        if ((dx == 0) == (dy == 0)) {
            throw new IllegalArgumentException("step " + dx + "," + dy + " is not along one axis");
        }
        if (dx != 0) {
            return dx > 0 ? RIGHT : LEFT;
        }
        return dy > 0 ? TOP : BOTTOM;
    }
}
