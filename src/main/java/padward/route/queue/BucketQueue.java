package padward.route.queue;

import java.util.Arrays;

/**
 * A monotone queue of small whole keys: a ring of buckets, one per key, each a last-in-first-out
 * list (Dial, "Algorithm 360: Shortest-path forest with topological ordering", Communications of
 * the ACM 12(11), 1969, 632-633). Keys beyond the ring wait in a heap until the ring comes to them.
 * Among equal keys the one put in last comes out first, which in a search is the one that has come
 * farthest.
 *
 * <p>Measured against the alternatives, see docs/speed-notes.md. Memory: 8 bytes an entry, kept for
 * reuse.
 */
public final class BucketQueue {
    /** Number of buckets: a span of keys as long as the switches and wires that fabrics have. */
    private static final int RING = 4096;

    private static final int NONE = -1;

    private final int[] head = new int[RING];

    /** Which buckets are not empty. */
    private final long[] filled = new long[RING / Long.SIZE];

    /** Entries as pairs: what is queued, and the next entry of the bucket or of the free list. */
    private int[] entries = new int[1024];

    private int used;
    private int free = NONE;
    private int inRing;
    private int current;

    /** What waits beyond the ring. */
    private final VertexHeap later = new VertexHeap();

    /** An empty queue, whose keys begin at 0. */
    public BucketQueue() {
        Arrays.fill(head, NONE);
    }

    /** Empties the queue, whose keys may from now on be {@code least} or more. */
    public void clear(int least) {
        if (inRing > 0) {
            Arrays.fill(head, NONE);
            Arrays.fill(filled, 0);
        }
        inRing = 0;
        used = 0;
        free = NONE;
        later.clear();
        current = least;
    }

    /** Whether nothing is in it. */
    public boolean isEmpty() {
        return inRing == 0 && later.isEmpty();
    }

    /** The key of what came out last; no key that is put in may be less. */
    public int current() {
        return current;
    }

    /** Puts in an item; a key less than the current one counts as the current one. */
    public void push(int item, int key) {
        int ahead = key - current;
        if (ahead >= RING) {
            later.push(item, key, 0);
            return;
        }
        int bucket = (ahead < 0 ? current : key) & (RING - 1);
        int entry = free;
        if (entry == NONE) {
            entry = used;
            used += 2;
            if (used > entries.length) {
                entries = Arrays.copyOf(entries, entries.length * 2);
            }
        } else {
            free = entries[entry + 1];
        }
        entries[entry] = item;
        entries[entry + 1] = head[bucket];
        head[bucket] = entry;
        filled[bucket >>> 6] |= 1L << bucket;
        inRing++;
    }

    /** Takes out an item of the least key; the queue must not be empty. */
    public int pop() {
        int bucket = current & (RING - 1);
        if (head[bucket] == NONE) {
            advance();
            bucket = current & (RING - 1);
        }
        int entry = head[bucket];
        int item = entries[entry];
        head[bucket] = entries[entry + 1];
        if (head[bucket] == NONE) {
            filled[bucket >>> 6] &= ~(1L << bucket);
        }
        entries[entry + 1] = free;
        free = entry;
        inRing--;
        return item;
    }

    /** Goes on to the next bucket that is not empty. */
    private void advance() {
        int next = inRing == 0 ? Integer.MAX_VALUE : nextInRing();
        if (later.isEmpty() || later.leastKey() > next) {
            current = next;
            return;
        }
        current = (int) later.leastKey();
        while (!later.isEmpty() && later.leastKey() - current < RING) {
            int key = (int) later.leastKey();
            push(later.pop(), key);
        }
    }

    private int nextInRing() {
        int bucket = current & (RING - 1);
        int word = bucket >>> 6;
        long bits = filled[word] & (-1L << bucket);
        while (bits == 0) {
            word = (word + 1) & (filled.length - 1);
            bits = filled[word];
        }
        int found = (word << 6) + Long.numberOfTrailingZeros(bits);
        return current + ((found - bucket) & (RING - 1));
    }

    /** Bytes of the arrays. */
    public long bytes() {
        return 4L * (head.length + entries.length) + 8L * filled.length + later.bytes();
    }
}
