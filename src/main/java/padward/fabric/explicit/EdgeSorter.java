package padward.fabric.explicit;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.List;
import padward.fabric.DelayClasses;
import padward.fabric.EdgeKind;

/**
 * Makes rows of outgoing edges from a bag: the edges of one part of the sources at a time, counted
 * by source. The edges of a vertex stay in the order in which they came; of those between the same
 * ends the first one counts.
 */
final class EdgeSorter {
    /** Repeated edges remembered: enough for messages. */
    private static final int MOST_REPEATED = 10_000;

    /**
     * An edge that was there before.
     *
     * @param from final number of its source
     * @param to final number of its target
     * @param kept what the first one is
     */
    record Repeated(int from, int to, EdgeKind kept) {}

    private final EdgeBag bag;
    private final int[] number;
    private final DelayClasses classes;
    private final RowPool pool;
    private final List<Repeated> repeated = new ArrayList<>();

    /** For the edges of one source: target, and which of them it is, in one word. */
    private long[] keys = new long[64];

    private int[] ends = new int[64];
    private int[] kinds = new int[64];

    /**
     * @param number the vertices' final numbers
     */
    EdgeSorter(EdgeBag bag, TileOffsets bases, int[] number, DelayClasses classes) {
        this.bag = bag;
        this.number = number;
        this.classes = classes;
        this.pool = new RowPool(bases);
    }

    List<Repeated> repeated() {
        return repeated;
    }

    EdgeRows rows() {
        for (int part = 0; part < bag.parts(); part++) {
            addPart(part);
        }
        return pool.freeze(classes);
    }

    private void addPart(int part) {
        int[] sources = new int[bag.count(part)];
        int[] targets = new int[sources.length];
        int[] edgeClass = new int[sources.length];
        int firstSource = part * EdgeBag.partSize();
        int[] next = new int[EdgeBag.partSize() + 1];
        bag.empty(
                part,
                (edge, from, to, kind) -> {
                    sources[edge] = from - firstSource;
                    targets[edge] = number[to];
                    edgeClass[edge] = kind;
                    next[from - firstSource + 1]++;
                });
        for (int i = 1; i < next.length; i++) {
            next[i] += next[i - 1];
        }
        int[] start = next.clone();
        int[] order = new int[sources.length];
        for (int edge = 0; edge < sources.length; edge++) {
            order[next[sources[edge]]++] = edge;
        }
        for (int source = 0; source < start.length - 1; source++) {
            if (start[source + 1] > start[source]) {
                int vertex = number[firstSource + source];
                addRow(vertex, order, start[source], start[source + 1], targets, edgeClass);
            }
        }
    }

    private void addRow(
            int vertex, int[] order, int start, int end, int[] targets, int[] edgeClass) {
        int size = end - start;
        if (keys.length < size) {
            keys = new long[2 * size];
            ends = new int[2 * size];
            kinds = new int[2 * size];
        }
        for (int i = 0; i < size; i++) {
            keys[i] = (long) targets[order[start + i]] << Integer.SIZE | i;
        }
        Arrays.sort(keys, 0, size);
        for (int i = 0; i < size; i++) {
            ends[i] = targets[order[start + i]];
            kinds[i] = edgeClass[order[start + i]];
        }
        boolean any = false;
        for (int i = 1; i < size; i++) {
            if (keys[i] >> Integer.SIZE == keys[i - 1] >> Integer.SIZE) {
                report(vertex, (int) (keys[i - 1] >> Integer.SIZE), (int) keys[i - 1]);
                keys[i] = keys[i] >> Integer.SIZE << Integer.SIZE | (int) keys[i - 1];
                any = true;
            }
        }
        pool.set(vertex, ends, kinds, 0, any ? keepFirst(size) : size);
    }

    private void report(int vertex, int target, int first) {
        if (repeated.size() < MOST_REPEATED) {
            repeated.add(new Repeated(vertex, target, classes.kind(kinds[first])));
        }
    }

    /** Moves the edges together that a key still names; how many these are. */
    private int keepFirst(int size) {
        BitSet named = new BitSet(size);
        for (int i = 0; i < size; i++) {
            named.set((int) keys[i]);
        }
        int kept = 0;
        for (int i = named.nextSetBit(0); i >= 0; i = named.nextSetBit(i + 1)) {
            ends[kept] = ends[i];
            kinds[kept++] = kinds[i];
        }
        return kept;
    }
}
