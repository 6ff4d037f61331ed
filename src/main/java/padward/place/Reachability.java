package padward.place;

import it.unimi.dsi.fastutil.ints.IntArrayFIFOQueue;
import java.util.BitSet;
import padward.fabric.EdgeCursor;

/** What can be reached from a vertex, regardless of cost. */
final class Reachability {
    private Reachability() {}

    /**
     * The vertices reached, including the first; closed ones are reached but not passed. O(vertices
     * + edges).
     *
     * @param edges the edges in the direction of the walk
     */
    static BitSet from(int first, EdgeCursor edges, BitSet closed) {
        BitSet seen = new BitSet();
        IntArrayFIFOQueue queue = new IntArrayFIFOQueue();
        seen.set(first);
        queue.enqueue(first);
        while (!queue.isEmpty()) {
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
