package padward.ui.design;

import java.util.Arrays;
import java.util.stream.IntStream;
import padward.fabric.Fabric;
import padward.fabric.VertexKind;

/**
 * What the map looks up per tile: its vertices, where its wires lead and in which lane each runs.
 * Built once per fabric, off the UI thread.
 *
 * <p>O(vertices) time; 6 bytes a vertex where vertices are numbered tile by tile, else 10.
 */
public final class TileIndex {
    /** Longer wires are listed apart, so that a frame need not visit all tiles for their sake. */
    private static final int LONGEST_SOUGHT = 24;

    private final Fabric fabric;
    private final int[] first;

    /** Empty when vertices are numbered tile by tile, so that a place is the vertex itself. */
    private final int[] vertices;

    /** Far tile of each wire, {@link Fabric#NOTHING} for what is no wire. */
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
        longWires = IntStream.range(0, count).filter(v -> span(v) > LONGEST_SOUGHT).toArray();
        reach =
                IntStream.range(0, count)
                        .map(this::span)
                        .filter(s -> s <= LONGEST_SOUGHT)
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

    /** How many columns or rows a wire spans, whichever is more; 0 for what is no wire. */
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

    /** Position of a tile's first vertex; the tile's end where the next one's first is. */
    public int first(int tile) {
        return first[tile];
    }

    /** The vertex at a position. */
    public int vertex(int position) {
        return vertices.length == 0 ? position : vertices[position];
    }

    /** The tile in which a wire ends; {@link Fabric#NOTHING} for what is no wire. */
    public int head(int vertex) {
        return heads[vertex];
    }

    /** In which lane each wire runs. */
    Lanes lanes() {
        return lanes;
    }

    /** How far wires reach that are not listed among {@link #longWires()}, tiles. */
    public int reach() {
        return reach;
    }

    /** Wires that reach farther, in ascending order; not to be changed. */
    public int[] longWires() {
        return longWires;
    }
}
