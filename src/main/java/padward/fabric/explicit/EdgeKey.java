package padward.fabric.explicit;

/** An edge as one number. */
final class EdgeKey {
    private EdgeKey() {}

    /** The number of the edge between two vertices. */
    static long of(int from, int to) {
        return (long) from << Integer.SIZE | to & 0xffff_ffffL;
    }

    /** Its source. */
    static int from(long key) {
        return (int) (key >> Integer.SIZE);
    }

    /** Its target. */
    static int to(long key) {
        return (int) key;
    }
}
