package padward.fabric;

import padward.fabric.delay.Corner;
import padward.fabric.delay.Delay;

/**
 * Walks over the edges at one vertex, in a fixed order. One cursor is reused for many vertices, so
 * that a search allocates nothing per vertex; it belongs to one thread.
 *
 * <pre>{@code
 * cursor.reset(v);
 * while (cursor.next()) { use(cursor.other(), cursor.delayPs(corner)); }
 * }</pre>
 */
public interface EdgeCursor {
    /** Places the cursor before the first edge at {@code vertex}. */
    void reset(int vertex);

    /** Moves to the next edge; false when there is none, after which the accessors mean nothing. */
    boolean next();

    /**
     * Places the cursor at an edge at {@code vertex}, by its place in the order of these; false
     * when there are not as many.
     *
     * @param place at least 0
     */
    default boolean reset(int vertex, int place) {
        reset(vertex);
        int left = place;
        while (next()) {
            if (left-- == 0) {
                return true;
            }
        }
        return false;
    }

    /** The vertex at the far end: the target of an outgoing edge, the source of an incoming one. */
    int other();

    /** What the edge is. */
    EdgeKind kind();

    /** Delay of the edge, with the delay of what it enters, picoseconds. */
    int delayPs(Corner corner);

    /** The delay at both corners; allocates, so not for inner loops. */
    default Delay delay() {
        return new Delay(delayPs(Corner.FAST), delayPs(Corner.SLOW));
    }
}
