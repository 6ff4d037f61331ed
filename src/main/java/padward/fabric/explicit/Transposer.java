package padward.fabric.explicit;

import padward.fabric.DelayClasses;

/**
 * Turns rows of outgoing edges into those of incoming ones, a slice of the targets at a time, so
 * that the edges are never all in memory unpacked. A tile is read for those slices only that its
 * longest edges can reach. O(edges) where edges are short compared with the fabric.
 */
final class Transposer {
    /** Edges of a slice, unless a single tile has more: 5 arrays of this length. */
    static final int SLICE = 1 << 23;

    private final TileOffsets bases;
    private final EdgeRows out;
    private final RowPool in;
    private final int[] lowest;
    private final int[] highest;

    private Transposer(TileOffsets bases, EdgeRows out) {
        this.bases = bases;
        this.out = out;
        this.in = new RowPool(bases);
        lowest = new int[bases.tiles()];
        highest = new int[bases.tiles()];
        int[] least = out.leastSteps();
        int[] greatest = out.greatestSteps();
        for (int tile = 0; tile < lowest.length; tile++) {
            lowest[tile] = tile;
            highest[tile] = tile;
            for (int place = 0; place < bases.size(tile); place++) {
                int row = out.row(tile, place);
                lowest[tile] = Math.min(lowest[tile], tile + least[row]);
                highest[tile] = Math.max(highest[tile], tile + greatest[row]);
            }
        }
    }

    /** The same edges by their targets, with slices of this many edges. */
    static EdgeRows transpose(TileOffsets bases, EdgeRows out, DelayClasses classes, int slice) {
        Transposer transposer = new Transposer(bases, out);
        transposer.run(transposer.edgesIntoTiles(), slice);
        return transposer.in.freeze(classes);
    }

    private int[] edgesIntoTiles() {
        int[] count = new int[bases.tiles()];
        EdgeRows.Cursor cursor = out.cursor();
        for (int vertex = 0; vertex < bases.count(); vertex++) {
            cursor.reset(vertex);
            while (cursor.next()) {
                count[cursor.tile()]++;
            }
        }
        return count;
    }

    private void run(int[] count, int most) {
        int tile = 0;
        while (tile < count.length) {
            int first = tile;
            long edges = count[tile++];
            while (tile < count.length && edges + count[tile] <= most) {
                edges += count[tile++];
            }
            if (edges > 0) {
                slice(first, tile, Math.toIntExact(edges));
            }
        }
    }

    /** Makes the rows of the vertices of some tiles, which this many edges enter. */
    private void slice(int firstTile, int endTile, int edges) {
        int base = bases.first(firstTile);
        int[] target = new int[edges];
        int[] source = new int[edges];
        int[] edgeClass = new int[edges];
        int[] next = new int[bases.first(endTile) - base + 1];
        int found = 0;
        EdgeRows.Cursor cursor = out.cursor();
        for (int tile = 0; tile < bases.tiles(); tile++) {
            if (highest[tile] < firstTile || lowest[tile] >= endTile) {
                continue;
            }
            for (int vertex = bases.first(tile); vertex < bases.first(tile + 1); vertex++) {
                cursor.reset(vertex);
                while (cursor.next()) {
                    int to = cursor.tile();
                    if (to >= firstTile && to < endTile) {
                        target[found] = cursor.other() - base;
                        source[found] = vertex;
                        edgeClass[found] = cursor.edgeClass();
                        next[target[found]]++;
                        found++;
                    }
                }
            }
        }
        sortAndSet(base, target, source, edgeClass, next);
    }

    /** Sources come in rising order, and counting keeps it. */
    private void sortAndSet(int base, int[] target, int[] source, int[] edgeClass, int[] next) {
        int start = 0;
        for (int i = 0; i < next.length; i++) {
            int size = next[i];
            next[i] = start;
            start += size;
        }
        int[] sources = new int[source.length];
        int[] classes = new int[source.length];
        for (int i = 0; i < source.length; i++) {
            int at = next[target[i]]++;
            sources[at] = source[i];
            classes[at] = edgeClass[i];
        }
        start = 0;
        for (int i = 0; i < next.length - 1; i++) {
            if (next[i] > start) {
                in.set(base + i, sources, classes, start, next[i]);
            }
            start = next[i];
        }
    }
}
