package padward.place;

import it.unimi.dsi.fastutil.ints.IntArrayFIFOQueue;
import java.util.BitSet;
import java.util.concurrent.CancellationException;
import padward.base.Progress;
import padward.fabric.EdgeCursor;

/** What can be reached from a vertex, regardless of cost. */
final class Reachability {
    /** How many vertices are looked at between two questions whether to stop, less one. */
    private static final int OFTEN = 0xfff;

    private Reachability() {}

    /**
     * The vertices reached, including the first; closed ones are reached but not passed. O(vertices
     * + edges).
     *
     * @param edges the edges in the direction of the walk
     * @throws CancellationException when {@code progress} is cancelled
     */
    static BitSet from(int first, EdgeCursor edges, BitSet closed, Progress progress) {
        BitSet seen = new BitSet();
        IntArrayFIFOQueue queue = new IntArrayFIFOQueue();
        seen.set(first);
        queue.enqueue(first);
        for (int looked = 0; !queue.isEmpty(); looked++) {
            if ((looked & OFTEN) == 0 && progress.cancelled()) {
                throw new CancellationException("looking for what can be reached");
            }
            int vertex = queue.dequeueInt();
            if (vertex != first && closed.get(vertex)) {
                continue;
            }
            edges.reset(vertex);
            while (edges.next()) {
                if (!seen.get(edges.other())) {
                    seen.set(edges.other());
                    queue.enqueue(edges.other());
                }
            }
        }
        return seen;
    }
}
