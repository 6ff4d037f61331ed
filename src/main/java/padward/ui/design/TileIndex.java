package padward.ui.design;

import java.util.Arrays;
import java.util.stream.IntStream;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;

/**
 * What the map looks up per tile: its vertices, where its wires end and in which lane each is
 * drawn. Built once per fabric, off the UI thread.
 *
 * <p>O(vertices) time; 6 bytes a vertex where vertices are numbered tile by tile, else 10.
 */
public final class TileIndex {
    /**
     * Longer wires are listed separately, so that a frame need not visit all tiles because of them.
     */
    private static final int MAX_SHORT_SPAN = 24;

    private final Fabric fabric;
    private final int[] first;

    /** Empty when vertices are numbered tile by tile: a position is then the vertex itself. */
    private final int[] vertices;

    /** Far tile of each wire, {@link Fabric#NOTHING} for other vertices. */
    private final int[] heads;

    private final Lanes lanes;
    private final int[] longWires;
    private final int reach;

    TileIndex(Fabric fabric) {
        this.fabric = fabric;
        int count = fabric.vertexCount();
        first = new int[fabric.tileCount() + 1];
        heads = new int[count];
        boolean inOrder = true;
        int last = 0;
        for (int v = 0; v < count; v++) {
            int tile = fabric.tile(v);
            first[tile + 1]++;
            inOrder &= tile >= last;
            last = tile;
            heads[v] = fabric.kind(v) == VertexKind.WIRE ? fabric.headTile(v) : Fabric.NOTHING;
        }
        for (int t = 0; t < fabric.tileCount(); t++) {
            first[t + 1] += first[t];
        }
        vertices = inOrder ? new int[0] : sorted(fabric, first);
        longWires = IntStream.range(0, count).filter(v -> span(v) > MAX_SHORT_SPAN).toArray();
        reach =
                IntStream.range(0, count)
                        .map(this::span)
                        .filter(s -> s <= MAX_SHORT_SPAN)
                        .max()
                        .orElse(0);
        lanes = new Lanes(fabric, this);
    }

    private static int[] sorted(Fabric fabric, int[] first) {
        int[] next = Arrays.copyOf(first, first.length);
        int[] result = new int[fabric.vertexCount()];
        for (int v = 0; v < result.length; v++) {
            result[next[fabric.tile(v)]++] = v;
        }
        return result;
    }

    /** Number of columns or rows that a wire spans, whichever is more; 0 for other vertices. */
    private int span(int vertex) {
        int head = heads[vertex];
        if (head == Fabric.NOTHING) {
            return 0;
        }
        int tile = fabric.tile(vertex);
        return head == tile
                ? 0
                : Math.max(
                        Math.abs(fabric.column(head) - fabric.column(tile)),
                        Math.abs(fabric.row(head) - fabric.row(tile)));
    }

    /** Position of a tile's first vertex; its last one is before that of the next tile. */
    public int first(int tile) {
        return first[tile];
    }

    /** The vertex at a position. */
    public int vertex(int position) {
        return vertices.length == 0 ? position : vertices[position];
    }

    /** The tile in which a wire ends; {@link Fabric#NOTHING} for other vertices. */
    public int head(int vertex) {
        return heads[vertex];
    }

    /** The lane in which each wire is drawn. */
    Lanes lanes() {
        return lanes;
    }

    /** The longest reach of wires that are not among {@link #longWires()}, tiles. */
    public int reach() {
        return reach;
    }

    /** Wires that reach farther, in ascending order; must not be changed. */
    public int[] longWires() {
        return longWires;
    }
}
