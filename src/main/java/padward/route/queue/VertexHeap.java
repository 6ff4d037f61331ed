package padward.route.queue;

import java.util.Arrays;

/**
 * A 4-ary heap of (vertex, key, tie), smallest key first, then smallest tie. Entries are never
 * moved by key: a better entry is added as well as the old one, and the search skips the stale one.
 */
public final class VertexHeap {
    private static final int ARITY = 4;

    private int[] vertices = new int[256];
    private long[] keys = new long[256];
    private long[] ties = new long[256];
    private int size;

    /** Whether nothing is in it. */
    public boolean isEmpty() {
        return size == 0;
    }

    /** Empties it. */
    public void clear() {
        size = 0;
    }

    /** The smallest key; the heap must not be empty. */
    public long leastKey() {
        return keys[0];
    }

    /** Puts in an entry. O(log size). */
    public void push(int vertex, long key, long tie) {
        if (size == vertices.length) {
            vertices = Arrays.copyOf(vertices, size * 2);
            keys = Arrays.copyOf(keys, size * 2);
            ties = Arrays.copyOf(ties, size * 2);
        }
        int hole = size++;
        while (hole > 0) {
            int parent = (hole - 1) / ARITY;
            if (!before(key, tie, parent)) {
                break;
            }
            copy(parent, hole);
            hole = parent;
        }
        set(hole, vertex, key, tie);
    }

    /** Takes out the least entry and returns its vertex. O(log size). */
    public int pop() {
        int result = vertices[0];
        size--;
        int vertex = vertices[size];
        long key = keys[size];
        long tie = ties[size];
        int hole = 0;
        while (true) {
            int best = leastChild(hole);
            if (best < 0 || before(key, tie, best)) {
                break;
            }
            copy(best, hole);
            hole = best;
        }
        set(hole, vertex, key, tie);
        return result;
    }

    private int leastChild(int hole) {
        int first = hole * ARITY + 1;
        if (first >= size) {
            return -1;
        }
        int best = first;
        int last = Math.min(first + ARITY, size);
        for (int child = first + 1; child < last; child++) {
            if (before(keys[child], ties[child], best)) {
                best = child;
            }
        }
        return best;
    }

    private boolean before(long key, long tie, int place) {
        return key < keys[place] || (key == keys[place] && tie < ties[place]);
    }

    private void copy(int from, int to) {
        set(to, vertices[from], keys[from], ties[from]);
    }

    private void set(int place, int vertex, long key, long tie) {
        vertices[place] = vertex;
        keys[place] = key;
        ties[place] = tie;
    }

    /** Bytes of the arrays. */
    public long bytes() {
        return 20L * vertices.length;
    }
}
