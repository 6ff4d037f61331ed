package padward.fabric;

/** An edge as one number. */
public final class EdgeKey {
    private EdgeKey() {}

    /** The number of the edge between two vertices. */
    public static long of(int from, int to) {
        return (long) from << Integer.SIZE | to & 0xffff_ffffL;
    }

    /** Its source. */
    public static int from(long key) {
        return (int) (key >> Integer.SIZE);
    }

    /** Its target. */
    public static int to(long key) {
        return (int) key;
    }
}
