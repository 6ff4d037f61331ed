package padward.route.search;

import it.unimi.dsi.fastutil.ints.IntArrayList;
import it.unimi.dsi.fastutil.ints.IntIterator;
import java.util.Arrays;
import java.util.BitSet;
import padward.route.cost.BlockedVertices;
import padward.route.queue.BucketQueue;

/**
 * What a fast search knows about each vertex, kept from one search to the next: the least cost so
 * far (4 bytes), whether it is closed or settled (two bits: at present, and in the shared set), the
 * queue, and which vertices were touched. Resetting takes O(touched).
 *
 * <p>The shared set of {@link BlockedVertices} is copied when a search comes with another one than
 * the search before. Which one it is is decided by identity, as comparing members would take O(V)
 * for each question. So the set must not change in place, as {@link BlockedVertices} demands; where
 * assertions are on (in all tests), each search checks it.
 */
final class SearchState {
    static final int UNSEEN = Integer.MAX_VALUE;

    /** Up to one vertex in so many is listed as touched; beyond that everything is reset. */
    private static final int LISTED_SHARE = 16;

    final int[] cost;

    /** Vertices that are closed, or settled in this search. */
    final long[] done;

    final BucketQueue queue = new BucketQueue();
    private final IntArrayList touched = new IntArrayList();
    private final int mostListed;
    private boolean manyTouched;
    private final long[] shared;
    private BitSet sharedSource = new BitSet();
    private BlockedVertices blocked = BlockedVertices.NONE;

    SearchState(int vertices) {
        cost = new int[vertices];
        Arrays.fill(cost, UNSEEN);
        // One word more, so that a window of 64 bits can be read at any vertex.
        int words = (vertices + 63) / 64 + 1;
        done = new long[words];
        shared = new long[words];
        mostListed = vertices / LISTED_SHARE;
    }

    /** Notes that a vertex has a cost for the first time. */
    void touch(int vertex) {
        if (touched.size() < mostListed) {
            touched.add(vertex);
        } else {
            manyTouched = true;
        }
    }

    /** Notes that any vertex may have a cost. */
    void touchAll() {
        manyTouched = true;
    }

    /** Forgets the last search and closes the members of a set. */
    void begin(BlockedVertices closed) {
        forget();
        if (closed.base() != sharedSource) {
            sharedSource = closed.base();
            Arrays.fill(shared, 0);
            long[] words = sharedSource.toLongArray();
            System.arraycopy(words, 0, shared, 0, Math.min(words.length, shared.length));
            System.arraycopy(shared, 0, done, 0, shared.length);
        }
        assert isCopyOf(sharedSource) : "a shared set of blocked vertices was changed in place";
        blocked = closed;
        for (IntIterator i = closed.different().iterator(); i.hasNext(); ) {
            int vertex = i.nextInt();
            done[vertex >>> 6] ^= 1L << vertex;
        }
    }

    private boolean isCopyOf(BitSet source) {
        long[] words = source.toLongArray();
        int length = Math.min(words.length, shared.length);
        return Arrays.equals(words, 0, length, shared, 0, length)
                && Arrays.stream(shared, length, shared.length).allMatch(word -> word == 0);
    }

    private void forget() {
        if (manyTouched) {
            Arrays.fill(cost, UNSEEN);
            System.arraycopy(shared, 0, done, 0, shared.length);
        } else {
            for (int i = 0; i < touched.size(); i++) {
                int vertex = touched.getInt(i);
                cost[vertex] = UNSEEN;
                done[vertex >>> 6] = shared[vertex >>> 6];
            }
            for (IntIterator i = blocked.different().iterator(); i.hasNext(); ) {
                int word = i.nextInt() >>> 6;
                done[word] = shared[word];
            }
        }
        touched.clear();
        manyTouched = false;
    }

    boolean isDone(int vertex) {
        return (done[vertex >>> 6] & 1L << vertex) != 0;
    }

    void setDone(int vertex) {
        done[vertex >>> 6] |= 1L << vertex;
    }

    /** Bytes of the arrays. */
    long bytes() {
        return 4L * cost.length
                + 8L * (done.length + shared.length)
                + 4L * touched.elements().length
                + queue.bytes();
    }
}
