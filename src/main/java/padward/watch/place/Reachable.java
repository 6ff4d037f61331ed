package padward.watch.place;

import it.unimi.dsi.fastutil.ints.IntArrayFIFOQueue;
import it.unimi.dsi.fastutil.ints.IntOpenHashSet;
import java.util.BitSet;
import padward.base.Progress;
import padward.fabric.EdgeCursor;

/** What can be reached over vertices that are not closed, whatever it costs. */
final class Reachable {
    private static final int VERTICES_BETWEEN_CHECKS = 1 << 12;

    private Reachable() {}

    /**
     * The vertices reached, the first ones included; closed ones are reached but not passed.
     * O(vertices + edges).
     *
     * @param edges the edges in the direction of the walk
     * @param progress asked now and then whether to stop
     * @throws java.util.concurrent.CancellationException when {@code progress} says so
     */
    static BitSet of(int[] first, EdgeCursor edges, BitSet closed, Progress progress) {
        BitSet seen = new BitSet();
        IntArrayFIFOQueue queue = new IntArrayFIFOQueue();
        for (int vertex : first) {
            if (!seen.get(vertex)) {
                seen.set(vertex);
                queue.enqueue(vertex);
            }
        }
        int starts = queue.size();
        for (int i = 0; !queue.isEmpty(); i++) {
            if (i % VERTICES_BETWEEN_CHECKS == 0) {
                progress.check();
            }
            int vertex = queue.dequeueInt();
            if (i >= starts && closed.get(vertex)) {
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

    /** How many vertices are reached before there are that many; the first one counts. */
    static int countUpTo(int most, int first, EdgeCursor edges, BitSet closed) {
        // Few of many vertices: a bit set would be as large as the fabric.
        IntOpenHashSet seen = new IntOpenHashSet();
        IntArrayFIFOQueue queue = new IntArrayFIFOQueue();
        seen.add(first);
        queue.enqueue(first);
        int count = 1;
        while (!queue.isEmpty() && count < most) {
            edges.reset(queue.dequeueInt());
            while (edges.next()) {
                int other = edges.other();
                if (!closed.get(other) && seen.add(other)) {
                    queue.enqueue(other);
                    count++;
                }
            }
        }
        return count;
    }
}
