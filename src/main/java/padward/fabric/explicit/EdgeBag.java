package padward.fabric.explicit;

import java.util.ArrayList;
import java.util.List;
import padward.fabric.array.PagedBytes;

/**
 * Edges as they come, before they are rows: written down in some 6 bytes each, apart for each part
 * of the sources, so that the rows can be made part by part. No order is asked of them; in the
 * order of their sources they take the fewest bytes.
 */
final class EdgeBag {
    private static final int PART_BITS = 16;

    /** Most edges of a part: the longest array. */
    private static final int MOST = Integer.MAX_VALUE - 8;

    private final List<Part> parts = new ArrayList<>();

    private static final class Part {
        final PagedBytes bytes = new PagedBytes();
        int count;
        int last;
    }

    void add(int from, int to, int edgeClass) {
        int number = from >>> PART_BITS;
        while (parts.size() <= number) {
            parts.add(new Part());
        }
        Part part = parts.get(number);
        if (part.count == MOST) {
            throw new OutOfMemoryError("more than " + MOST + " edges from one part of the fabric");
        }
        part.bytes.addSigned(from - part.last);
        part.bytes.addSigned(to - from);
        part.bytes.add(edgeClass);
        part.last = from;
        part.count++;
    }

    /** Takes what each edge is. */
    interface Taker {
        void take(int edge, int from, int to, int edgeClass);
    }

    int parts() {
        return parts.size();
    }

    /** How many sources there are in a part at most. */
    static int partSize() {
        return 1 << PART_BITS;
    }

    int count(int part) {
        return parts.get(part).count;
    }

    /** Hands out the edges of a part in the order in which they came, and forgets them. */
    void empty(int number, Taker taker) {
        Part part = parts.get(number);
        parts.set(number, new Part());
        part.bytes.rewind();
        int from = 0;
        for (int edge = 0; edge < part.count; edge++) {
            from += part.bytes.nextSigned();
            int to = from + part.bytes.nextSigned();
            taker.take(edge, from, to, part.bytes.next());
        }
    }
}
