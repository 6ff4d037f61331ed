package padward.ui.design;

import java.util.Arrays;
import java.util.BitSet;
import java.util.function.IntConsumer;
import java.util.stream.IntStream;
import padward.fabric.Fabric;
import padward.fabric.SiteView;
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

    /** The tapped wires that pass each tile, tile by tile; empty when no taps are listed. */
    private int[] tapsFrom = {};

    private int[] tappedByTile = {};

    /** The wires whose taps are listed. */
    private final BitSet tapped = new BitSet();

    /** Far tile of each wire, {@link Fabric#NOTHING} for other vertices. */
    private final int[] heads;

    private final WireLanes lanes;
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
            tapped.set(v, fabric.listsTaps(v));
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
        lanes = new WireLanes(fabric, this);
        if (!tapped.isEmpty()) {
            listTaps();
        }
    }

    private void listTaps() {
        tapsFrom = new int[fabric.tileCount() + 1];
        tapped.stream()
                .flatMap(w -> Arrays.stream(fabric.tapTiles(w)).distinct())
                .forEach(t -> tapsFrom[t + 1]++);
        for (int t = 0; t < fabric.tileCount(); t++) {
            tapsFrom[t + 1] += tapsFrom[t];
        }
        int[] next = tapsFrom.clone();
        tappedByTile = new int[tapsFrom[fabric.tileCount()]];
        tapped.stream()
                .forEach(
                        w ->
                                Arrays.stream(fabric.tapTiles(w))
                                        .distinct()
                                        .forEach(t -> tappedByTile[next[t]++] = w));
    }

    /**
     * Visits what can be entered in a tile: what begins there, the wires with a tap there, and the
     * pins of sites that extend over it from elsewhere.
     */
    public void forEachIn(int tile, IntConsumer vertex) {
        for (int i = first[tile]; i < first[tile + 1]; i++) {
            if (!tapped.get(vertex(i))) {
                vertex.accept(vertex(i));
            }
        }
        if (tapsFrom.length > 0) {
            for (int i = tapsFrom[tile]; i < tapsFrom[tile + 1]; i++) {
                vertex.accept(tappedByTile[i]);
            }
        }
        if (fabric.hasWideSites()) {
            for (int wide : fabric.sitesReaching(tile)) {
                SiteView site = fabric.site(wide);
                for (int pin = 0; pin < site.pins().size(); pin++) {
                    vertex.accept(site.firstPin() + pin);
                }
            }
        }
    }

    /** Whether a tile has no wire, pin or pad, as where a corner of the chip is cut out. */
    public boolean isEmpty(int tile) {
        return first[tile] == first[tile + 1]
                && (tapsFrom.length == 0 || tapsFrom[tile] == tapsFrom[tile + 1]);
    }

    /** Whether any wire has listed taps. */
    public boolean anyTapped() {
        return !tapped.isEmpty();
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
        if (!tapped.get(vertex)) {
            return head == tile ? 0 : apart(tile, head);
        }
        int most = 0;
        for (int tap : fabric.tapTiles(vertex)) {
            most = Math.max(most, apart(tile, tap));
        }
        return most;
    }

    private int apart(int one, int other) {
        return Math.max(
                Math.abs(fabric.column(one) - fabric.column(other)),
                Math.abs(fabric.row(one) - fabric.row(other)));
    }

    /** Whether the taps of a wire are listed: it need not run straight from begin to end. */
    public boolean isTapped(int vertex) {
        return tapped.get(vertex);
    }

    /** Whether a wire that begins in a tile may be in view. */
    public boolean mayCross(TileRange seen, int wire, int tile) {
        if (!tapped.get(wire)) {
            return seen.meets(fabric, tile, heads[wire]);
        }
        int left = fabric.column(tile);
        int right = left;
        int bottom = fabric.row(tile);
        int top = bottom;
        for (int tap : fabric.tapTiles(wire)) {
            left = Math.min(left, fabric.column(tap));
            right = Math.max(right, fabric.column(tap));
            bottom = Math.min(bottom, fabric.row(tap));
            top = Math.max(top, fabric.row(tap));
        }
        int columns = fabric.columns();
        return seen.meets(fabric, bottom * columns + left, top * columns + right);
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
    WireLanes lanes() {
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
